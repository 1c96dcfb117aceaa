$ "$QUERN" lookup --group "Canned Legume" --limit 1
status 0
out foods in the group `Canned Legume`; 1 of 
