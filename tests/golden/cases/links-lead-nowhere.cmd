# A kitchen from strangers: its links and its `use` lines lead to a file outside. Nothing of that file is shown, in no command.
$ printf 'secret words of this machine\n' > secret.txt; printf 'food secret mush { per 100 g { sodium 1 mg }; source "x" }\n' > secret.quern; mkdir k k/in other; printf 'kitchen "K"\n' > k/kitchen.quern; printf 'recipe "A" {\n serves 1\n 100 g carrots\n}\n' > k/in/a.quern
$ ln -s ../secret.txt k/x.quern; ln -s in/a.quern k/inner.quern; ln -s .. k/up; ln -s ../other k/away; printf 'recipe "B" { serves 1; 1 cup water }\n' > other/b.quern; ln -s in k/same
$ for path in k/x.quern k/up/secret.txt k/away/b.quern k/away k/up; do "$QUERN" check $path > out.txt 2> err.txt; echo "$path: $? $(grep -c secret out.txt err.txt | tr '\n' ' ')$(grep -o 'link-outside' out.txt) $(grep -o 'follow-links' err.txt)"; done
$ "$QUERN" check k/inner.quern; echo "inner $?"; "$QUERN" check k/same/a.quern; echo "same $?"; "$QUERN" check k; echo "kitchen $?"; "$QUERN" check "$PWD/k"; echo "whole $?"
$ "$QUERN" check --follow-links k/away/b.quern; echo "allowed $?"; "$QUERN" report k/x.quern 2>/dev/null | grep -c secret; "$QUERN" trace A --kitchen k/x.quern 2>&1 | grep -c 'secret words'
$ printf 'kitchen "K"\nuse "../secret.quern"\n' > k/kitchen.quern; "$QUERN" check k; echo "use $?"; "$QUERN" check --allow other k > out.txt; echo "other $?"; "$QUERN" check --allow . k; echo "pantry $?"
$ printf 'kitchen "K"\nuse "up/secret.quern"\n' > k/kitchen.quern; "$QUERN" check k > out.txt; echo "through a link $? $(grep -c mush out.txt)"; printf 'kitchen "K"\nuse "../secret.pack"\n' > k/kitchen.quern; "$QUERN" pack --out secret.pack secret.quern > /dev/null; "$QUERN" check k; echo "pack $?"; "$QUERN" check --allow . k; echo "pack allowed $?"
$ set --; for i in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16; do set -- "$@" --allow other; done; "$QUERN" check "$@" k/in > out.txt; echo "sixteen $?"; "$QUERN" check "$@" --allow other k/in; echo "seventeen $?"; true
status 0
out k/x.quern: 2 out.txt:0 err.txt:0 link-outside follow-links
out k/up/secret.txt: 2
out k/away/b.quern: 2
out k/away: 2
out k/up: 2
out inner 0
out same 0
out kitchen 0
out whole 0
out allowed 0
out k/kitchen.quern:2:6: error: `../secret.quern` is outside the kitchen's folder; it was not opened [use-outside]
out use 1
out other 1
out pantry 0
out through a link 1 0
out pack 1
out pack allowed 0
out sixteen 0
out seventeen 2
lacks secret words
