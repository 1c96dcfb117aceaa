# Several are one page with one title; each text is escaped.
$ printf 'recipe "A <script>" {\n serves 1\n 1 cup milk\n}\nrecipe "B" {\n serves 1\n 1 cup milk\n}\n' > a.quern; "$QUERN" report --for patients --as html . > out.html; grep -c '<html' out.html; grep -c '</html>' out.html; cat out.html
status 0
out A &lt;script&gt;
out Content-Security-Policy
out class="large
lacks <script>
