$ "$QUERN" rank --day Long "$CASES/held" | sed 's/  */ /g'
status 0
out sodium in the day: 700 mg
out Long limit: sodium per day at most 600 mg BROKEN 700 mg
