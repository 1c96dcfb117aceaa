# The terms of medicine are for who works with them: in the report and in JSON, never on a handout.
$ printf 'recipe "R" { serves 1; 1 cup milk }\n' > k.quern; "$QUERN" report k.quern; "$QUERN" report --for patients k.quern | grep -c ACE >&2
status 1
out ACE inhibitors
err 0
