$ for day in 2026-02-30 yesterday 20260201 "" 1970-01-01; do "$QUERN" check --today "$day" "$CASES/packet-percent.quern"; echo "$?"; done | sort | uniq -c | tr -d ' \n'; "$QUERN" check --today 2026-02-30 x
status 2
out 52
err --today takes a day of the calendar such as 2026-02-01, not `2026-02-30`
err not `yesterday`
