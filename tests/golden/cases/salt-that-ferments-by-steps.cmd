# … by a step of its method, …
$ printf 'recipe "Red cabbage" { serves 20; 1 kg green cabbage; 20 g table salt; method { "Press it under its brine."; "Let it ferment at 65 F for three weeks." } }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out helps keep the food safe to eat
lacks leave salt out
