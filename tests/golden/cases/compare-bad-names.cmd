# Each slip in turn: a slip of the pen, a plain word for kinds, a nutrient, two of one name, one name alone, three names.
$ K="$CASES/compare.quern"
$ "$QUERN" compare Gruell "A pot" --kitchen "$K"
$ "$QUERN" compare butter "A pot" --kitchen "$K"
$ "$QUERN" compare Gruel "A pot" --nutrient potasium --kitchen "$K"
$ "$QUERN" compare "Class week" "A pot" --kitchen "$CASES/day-report.quern"
$ mkdir two && cp "$K" two/a.quern && cp "$K" two/b.quern && "$QUERN" compare Gruel "Milder gruel" --kitchen two
$ "$QUERN" compare Gruel "Milder gruel" --kitchen two/b.quern
$ "$QUERN" compare Gruel --kitchen "$K"
$ "$QUERN" compare Gruel --since --kitchen "$K"
$ "$QUERN" compare Gruel "A pot" --kitchen nowhere
$ "$QUERN" compare a b c
status 2
err no recipe, day, label or food is called "Gruell"; near names are "Gruel"
err "butter" stands for several foods; name one of them: "salted butter", "unsalted butter"
err no nutrient is called "potasium"
err two are called "Gruel": two/a.quern:9 and two/b.quern:9; rename one, or name the file of the one you mean with --kitchen
out sodium per serving: the second holds 100 mg less
err to what is "Gruel" compared? Write a second name, or --since and a revision
err nowhere: No such file or directory
err it takes two names
