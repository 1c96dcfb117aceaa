$ "$QUERN" lookup zzzzqqqq
status 1
out no food holds `zzzzqqqq`, and no name lies near
lacks sodium
