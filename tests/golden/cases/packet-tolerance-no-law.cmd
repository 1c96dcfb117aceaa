# Rules that know of no tolerance widen nothing by it, and the report says so.
$ printf 'kitchen "K"\nfollow rules eu\nfollow "Law"\npolicy "Law" { tolerance legal }\nlabel "Tin" { serving 100 g; sodium 480 mg }\nrecipe "R" { serves 1; 1 serving "Tin" }\n' > k.quern; "$QUERN" report k.quern
status 0
out rules in force do not say what that
lacks All figures hold what the law
