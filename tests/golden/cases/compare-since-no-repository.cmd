$ printf 'recipe "Soup" { serves 4; 1 l water }\n' > soup.quern
$ "$QUERN" compare "Soup" --since HEAD --kitchen soup.quern
status 2
err --since needs a git repository around the kitchen; git says: fatal: not a git repository
