$ for day in "Range of ages" "Misspelt" "Age alone" "Woman by word" "Said twice" "Grown"; do "$QUERN" report --recipe "$day" "$CASES/day-cautions.quern" > out; echo "$day: $(grep -c "A child's own clinician" out)"; done
status 0
out Range of ages: 1
out Misspelt: 1
out Age alone: 1
out Woman by word: 1
out Said twice: 1
out Grown: 0
