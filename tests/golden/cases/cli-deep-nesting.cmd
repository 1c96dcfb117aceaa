$ i=0; while [ $i -lt 20000 ]; do printf 'part "p" {\n'; i=$((i + 1)); done > deep.quern
$ "$QUERN" check deep.quern > out; got=$?; test $got -eq 1 && test -s out && echo told
status 0
out told
