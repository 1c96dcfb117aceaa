# Names are text, whatever stands in them.
$ printf 'recipe "<script>alert(1)</script>" { serves 1; 1 cup water }\nrecipe "| a | *b*" { serves 1; 2 cups water }\n' > a.quern
$ "$QUERN" compare "<script>alert(1)</script>" "| a | *b*" --as html && "$QUERN" rank a.quern --as html
status 0
out <h1>| a | *b*, against &lt;script&gt;alert(1)&lt;/script&gt;</h1>
out Content-Security-Policy
lacks <script
