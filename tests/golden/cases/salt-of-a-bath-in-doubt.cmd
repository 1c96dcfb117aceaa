# A cure in doubt is told what makes the range wide, and never to put less salt in.
$ printf 'recipe "Gravlax" { serves 10; 1 kg salmon, brined, in "Brine"; bath "Brine" { 60 g table salt; 1 L water }; limit sodium at most 500 mg; limit potassium at most 400 mg }\n' > k.quern; "$QUERN" check k.quern
status 1
lacks less salt
