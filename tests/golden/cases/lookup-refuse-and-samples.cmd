# Banana, SR28 NDB 09040: refuse 36%; its samples as in the release.
$ "$QUERN" lookup banana
status 0
out as bought, 36% of it is peel; any weight holds it
out how samples differed, per 100 g
$ "$QUERN" lookup --as json banana | python3 -c "import json,sys; c=json.load(sys.stdin)['card']; print(c['refuse'], sorted(c['samples'])[0], c['samples']['potassium']['with_variation']['low'] < 358)"
status 0
out 0.36 potassium True
