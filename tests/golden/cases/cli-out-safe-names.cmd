$ long=$(printf 'x%.0s' $(seq 300)); r() { printf 'recipe "%s" {\nserves 1\n1 cup water\n}\n' "$1"; }; { r con; r Com1; r index; r "Index by name"; r ../../etc/passwd; r "$long"; r "${long}y"; r .hidden; r "CRÈME"; r "crème"; r "CON."; r "<b>"; r "日本"; r "!?"; } > a.quern; "$QUERN" report --out made a.quern > /dev/null; ls made | sed 's/x\{119\}x*/LONG/' | LC_ALL=C sort | tr '\n' ' '; echo; ls
status 0
out LONG-2.txt LONG.txt b.txt crème-2.txt crème.txt etc-passwd.txt hidden.txt recipe-com1.txt recipe-con-2.txt recipe-con.txt recipe-index-by-name.txt recipe-index.txt recipe.txt 日本.txt
out a.quern
out made
