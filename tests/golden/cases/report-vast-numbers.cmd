$ printf 'recipe "Sea" {\nserves 0.000001\n999999999 kg table salt\n}\n' | "$QUERN" report - | grep -cE '[0-9]{16}'
status 1
out 0
$ printf 'recipe "Sea" {\nserves 0.000001\n999999999 kg table salt\n}\n' | "$QUERN" report - --panel | grep -cE '[0-9]{16}'
status 1
out 0
$ printf 'recipe "Sea" {\nserves 0.000001\n999999999 kg table salt\n}\n' | "$QUERN" report - --for patients | grep -cE '[0-9]{16}'
status 1
out 0
