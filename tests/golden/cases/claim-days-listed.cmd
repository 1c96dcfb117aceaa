$ "$QUERN" check --claims "$CASES/claim-days"
status 1
out a claim is of a food, and a day makes none
out Tea: what it could claim by the rules us
lacks Monday: what it could claim
lacks in-doubt
