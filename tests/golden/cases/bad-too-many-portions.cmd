$ { echo 'food mill x {'; echo 'per 100 g { sodium 1 mg }'; for i in $(seq 1002); do echo "1 piece$i = 3 g"; done; echo 'source "test"'; echo '}'; } > a.quern; "$QUERN" check a.quern
status 1
out a.quern:1003:1: error: a food takes 1,000 portions at most
out 1 error
