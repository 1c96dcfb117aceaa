# Each fix writes the word of today; what it makes of the line is read without a finding.
$ printf 'recipe "A" {\nserves 1\n100 g kale\naim potassium at least 1 mg\n}\n' | "$QUERN" check --as json -
status 1
schema check
same findings/0/code "former-word"
same findings/0/fixes/0/edits/0/text "goal"
same findings/0/line 4
