# Rules that have no tolerance are asked for one: nothing would be widened, so it is refused.
$ printf 'kitchen "K"\nfollow rules chile\nfollow "Law"\npolicy "Law" { tolerance legal }\nlabel "Tin" { serving 100 g; sodium 480 mg }\nrecipe "R" { serves 1; 1 serving "Tin" }\n' > k.quern; "$QUERN" check k.quern
status 1
out the policy "Law" asks for the legal tolerance of labels, and the rules `chile` have none [tolerance-none]
