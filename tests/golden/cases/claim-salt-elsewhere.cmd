# Under rules that know sodium alone, salt is no nutrient; which rules read it is told.
$ printf 'label "Broth" { serving 100 g; salt 1.2 g }\n' | "$QUERN" check -
status 1
out 1:32: error: no nutrient is called `salt` [unknown-nutrient]
out because: by the rules `eu` labels print salt, 2.5 times the sodium: `follow rules eu` reads it
