$ "$QUERN" rank --day "Open day" "$CASES/unknown-amounts.quern" --as json
status 1
schema rank
same foods/0/food "mill groats"
same foods/0/total/low 100
same foods/0/total/best null
same foods/1/food "mill crystals"
same foods/1/total/best null
