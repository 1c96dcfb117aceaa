$ "$QUERN" check --colour always "$CASES/limit-kept-broken-in-doubt.quern" | tr '\033' '#'
status 0
out #[1;38;5;131merror: #[0msodium per serving is
out #[1;38;5;243mwarning: #[0msodium per serving is
lacks #[1;31m
lacks #[1;33m
