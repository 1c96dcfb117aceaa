# A week has figures, so the cautions of its days stand there, each once, with the reason that one day gives.
$ printf 'recipe "S" { serves 1; 1 g half sodium salt blend; makes 1 g }\nday "A" for child 6 { 1 cup milk }\nday "B" { 1 cup milk; 1 serving "S" }\nweek "W" { day "A"; day "B"; day "A" }\n' > k.quern; "$QUERN" report --recipe W k.quern | sed -n "/^Cautions/,$ p"; "$QUERN" report --as json --recipe W k.quern | python3 -c "import json,sys; w=json.load(sys.stdin)['weeks'][0]['cautions']; t=[c['text'] for c in w]; print(len(t)==len(set(t)), sum('because' in c for c in w))"
status 0
out Cautions
out This dish has a potassium salt
out (Shown because
out Too much potassium can be dangerous
out A child's own clinician or dietitian comes first
out True 2
