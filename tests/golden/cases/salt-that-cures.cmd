# … and by a food that preserves: the salt beside curing salt. Leaving less of it in would make the meat unsafe.
$ printf 'recipe "Pork belly" { serves 20; 2 kg pork belly; 50 g table salt; 5 g pink curing salt }\n' > k.quern; "$QUERN" report --for patients k.quern; "$QUERN" report k.quern
status 0
out helps keep the food safe to eat
lacks leave salt out
lacks less salt
