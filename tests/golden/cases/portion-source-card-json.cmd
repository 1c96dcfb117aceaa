$ "$QUERN" lookup mill tuber --kitchen "$CASES/portion-source.quern" --as json
status 0
schema lookup
same card/portions/0/source null
same card/portions/1/source "kitchen scale of the class"
