$ "$QUERN" lookup "$(printf 'ka\033[31mle\302\233')" >out; s=$?; cat out; grep -c "$(printf '\033')" out; grep -c "$(printf '\302\233')" out; exit $s
status 1
out no food holds `ka�[31mle�`
