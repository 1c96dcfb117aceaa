$ mkdir bare; echo hello > bare/notes.txt
$ "$QUERN" check bare
status 2
err bare
