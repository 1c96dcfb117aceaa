# Forty recipes, each of two servings of the next: a walk that goes into each as often as it is named takes 2 to the 40th steps.
# Two servings of a recipe for two are one batch: 100 g of carrots.
$ i=0; while [ $i -lt 20 ]; do printf 'recipe "r%s" { serves 2; claim "no salt added"; 1 serving "r%s"; 1 serving "r%s" }\n' $i $((i+1)) $((i+1)); i=$((i+1)); done > k.quern; printf 'recipe "r20" { serves 2; 100 g carrots }\n' >> k.quern
$ i=21; while [ $i -lt 61 ]; do printf 'recipe "r%s" { serves 1; claim "no salt added"; 1 serving "r%s"; 1 serving "r%s" }\n' $i $((i+1)) $((i+1)); i=$((i+1)); done >> k.quern; printf 'recipe "r61" { serves 1; 100 g carrots }\n' >> k.quern
$ printf 'recipe "a" { serves 1; claim "no salt added"; 1 serving "b"; 1 serving "b" }\nrecipe "b" { serves 1; 1 serving "a"; 1 serving "a"; 100 g carrots }\n' > cycle.quern
$ timeout 20 "$QUERN" shopping r0 --kitchen k.quern --as json | python3 -c "import json,sys; print('grams', [w['grams']['best'] for w in json.load(sys.stdin)['foods']])"
$ timeout 20 "$QUERN" check --claims k.quern > out.txt; echo "claims $?"; timeout 20 "$QUERN" check k.quern > out.txt; echo "check $?"
$ timeout 20 "$QUERN" shopping --kitchen cycle.quern > out.txt; echo "cycle $?"; timeout 20 "$QUERN" check --claims cycle.quern > out.txt; echo "cycle claims $?"
status 0
out grams [100]
out claims 0
out check 0
out cycle claims 1
