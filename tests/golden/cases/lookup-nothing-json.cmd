$ "$QUERN" lookup zzzzqqqq --as json
status 1
schema lookup
same fitting 0
same found 0
same card null
same words "zzzzqqqq"
