$ printf 'recipe "A" {\n100 g flour, left over 20%%\n50 g flour, left in 1 tbsp\n}\n' | "$QUERN" check --as json -
status 1
schema check
same findings/0/code "left-over"
same findings/0/fixes/0/edits/0/text "thrown away 20%"
same findings/0/fixes/1/edits/0/text "kept 20%"
same findings/1/fixes/0/edits/0/text "thrown away 1 tbsp"
