# A claim that the rules do not define: near names, else all of them, and which other rules define it.
$ printf 'recipe "A" {\nserves 1\n1 cup water\nclaim "lo sodium"\nclaim "healty"\nclaim "unslted"\nclaim "30 %% lss sodium"\nclaim "green for salt"\nclaim "See nutrition information for sodium content"\n}\n' | "$QUERN" check -
$ printf 'kitchen "A"\nfollow rules who\n' > kitchen.quern
$ printf 'recipe "A" {\nserves 1\n1 cup water\nclaim "low sodium"\n}\n' > a.quern
$ "$QUERN" check .
status 1
out error: the rules `us` define no claim called `lo sodium` [unknown-claim]
out write `low sodium`
out write `healthy`
out write `unsalted`
out write `30% less sodium`
out because: the rules `uk` define it; `follow rules uk` chooses them
out error: the rules `us` define no claim called `See nutrition information for sodium content` [unknown-claim]
out because: the rules `us` define sodium free, salt free, very low sodium, low sodium, reduced sodium, N% less sodium,
out error: the rules `who` define no claim called `low sodium` [unknown-claim]
out because: the rules `who` define no claims
out because: the rules `us` define it; `follow rules us` chooses them
