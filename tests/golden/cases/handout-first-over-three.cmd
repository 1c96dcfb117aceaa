# In this order: not ready, the care team's limit, a poison, a potassium salt, the figures; each caution once.
$ printf 'recipe "Belly" { serves 10; 1 kg pork belly; 5 g pink curing salt; 10 g half sodium salt blend; 1 cup nosuchfood; limit potassium at most 100 mg set by clinician }\n' > k.quern; "$QUERN" report --for patients k.quern > out; grep -n -o -e "Not ready to hand out" -e "potassium per serving" -e "is a poison" -e "potassium salt in it" -e "Three things" -e "Take care" out | cut -d: -f2 | tr "\n" "/"; grep -c "is a poison" out
status 0
out Not ready to hand out/potassium per serving/is a poison/potassium salt in it/Three things/Take care/1
