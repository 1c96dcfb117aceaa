# A file of 64 MiB is read, and one of a byte more is not.
$ printf 'recipe "R" { serves 1; 1 g table salt }\n#' > a.quern
$ yes ' stew stew stew stew stew stew stew stew stew stew stew stew stew' | tr '\n' ' ' | head -c $((67108864 - $(wc -c < a.quern))) >> a.quern
$ "$QUERN" report a.quern | head -n 1
$ printf x >> a.quern
$ "$QUERN" check a.quern
status 1
out R
out [file-too-large]
