$ "$QUERN" trace Tubers --kitchen "$CASES/portion-source.quern" | tr -s ' '
status 0
out 2. kitchen scale of the class
out 3. mill table, row 7
out 4. weighed by the class; mill table, row 7; from memory
