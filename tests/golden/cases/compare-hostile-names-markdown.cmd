$ printf 'recipe "<script>alert(1)</script>" { serves 1; 1 cup water }\nrecipe "| a | *b*" { serves 1; 2 cups water }\n' > a.quern
$ "$QUERN" compare "<script>alert(1)</script>" "| a | *b*" --as markdown && "$QUERN" rank a.quern --as markdown
status 0
out # \| a \| \*b\*, against &lt;script&gt;alert(1)&lt;/script&gt;
out | 1 cup water |
lacks <script
