# A file cut anywhere ends in a finding or in peace, never in a defect.
$ file="$CASES/limit-of-a-policy.quern"
$ size=$(wc -c < "$file"); at=0; worst=0
$ while [ $at -lt $size ]; do head -c $at "$file" | "$QUERN" check - > /dev/null 2>&1; got=$?; [ $got -gt $worst ] && worst=$got; at=$((at + 7)); done
$ echo "worst status $worst"
status 0
out worst status 1
