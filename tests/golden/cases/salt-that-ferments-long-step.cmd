# … also where the word stands far behind in a long step, or in a note, …
$ printf 'recipe "Red cabbage" { serves 20; 1 kg green cabbage; 20 g table salt; note "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen then ferment it" }\n' > k.quern; "$QUERN" report --for patients k.quern
status 0
out helps keep the food safe to eat
