# The daily value of sodium is from memory in the rules of Canada, and second-hand in those of the US, where the step to which labels round potassium
# is from memory: reports say so.
$ printf 'label "Packet" { serving 100 g; sodium 150 mg; potassium 350 mg }\nrecipe "A" { serves 1; 1 serving "Packet" }\n' | "$QUERN" report - | grep 'not checked against'
$ printf 'kitchen "B"\nfollow rules canada\nrecipe "B" { serves 1; 1 cup water }\n' > kitchen.quern; "$QUERN" report . | grep 'not checked against'
$ printf 'kitchen "A"\nfollow rules eu\nlabel "Packet" { serving 100 g; salt 0.5 g; potassium 350 mg }\nrecipe "A" { serves 1; 1 serving "Packet" }\n' > kitchen.quern; "$QUERN" report . > eu; echo $(grep -c 'not checked against' eu) in Europe
status 0
out   - daily value of sodium: not checked against the regulation (Table of Daily Values, 2022)
out   - rounding of potassium on labels: not checked against the regulation (21 CFR 101.9(c)(8), second-hand; step from guidance (Dec 2019))
lacks daily value of sodium: not checked against the regulation (21 CFR
out 0 in Europe
