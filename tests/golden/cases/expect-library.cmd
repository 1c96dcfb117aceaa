$ now=$("$QUERN" check "$CASES/expect-library.quern" | sed -n 's/.*written: \([0-9a-f]*\) now.*/\1/p'); echo "${#now}"; sed "s/0000000000000000/$now/" "$CASES/expect-library.quern" > same.quern; "$QUERN" check "$CASES/expect-library.quern" same.quern
status 1
out 16
out expect-library.quern:2:48: error: sodium per serving was expected to be 90 mg (within 1%) and is 100 mg
out the library of foods, treatments and rules is another one than when this was written
out the library of foods, treatments and rules is the one with which this was written
out 100 g mill groats gives 100 mg (100%)
