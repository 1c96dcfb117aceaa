# 25% less that the claim names and 25% less that the rules ask for are one condition to a reader.
$ printf 'food mill a { group oats; per 100 g { sodium 400 mg }; source "made up" }\nfood mill b { group oats; per 100 g { sodium 340 mg }; source "made up" }\nrecipe "A" {\nserves 1\nmakes 100 g\nreference amount 100 g\n100 g mill b\nclaim "25%% less sodium", compared to mill a\n}\n' | "$QUERN" check - > out; s=$?; test $(grep -c 'less than in' out) = 1 && echo told once; cat out; exit $s
status 1
out told once
out because: sodium is 15% less than in `mill a`; at least 25% less is asked for
