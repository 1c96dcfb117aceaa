$ "$QUERN" rank --as json "$CASES/held"
status 0
schema rank
same limits/0/recipe "Over"
same limits/0/kind "limit"
same limits/0/text "limit: sodium per serving at most 400 mg (Mill)"
same limits/0/outcome "broken"
same limits/0/value {"low": 500, "best": 500, "high": 500}
same limits/1/recipe "Doubt"
same limits/1/outcome "in doubt"
same more_limits 1
same limits_kept 1
