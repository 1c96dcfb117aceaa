# Rules that a kitchen follows are its own affair, also in a file from elsewhere: a slip is told where it stands, in that
# file. What else is wrong there is not told.
$ mkdir k packs; printf 'rules clinic {\n    title "Clinic"\n    rounding sodum { step 10 mg; source "ours" }\n}\n' > packs/clinic.quern; printf 'recipe "Elsewhere" { serves 1; 1 cup mylk }\nfood odd { group oats; per 100 g { sodum 1 mg }; source "x" }\n' >> packs/clinic.quern; printf 'kitchen "K"\nuse "../packs/clinic.quern"\nfollow rules clinic\nrecipe "R" { serves 1; 1 cup water }\n' > k/kitchen.quern; "$QUERN" check --allow . k
status 1
out k/kitchen.quern:3:14: error: no nutrient is called `sodum`
out packs/clinic.quern:3:5
out write `sodium`
lacks mylk
lacks clinic.quern:6
