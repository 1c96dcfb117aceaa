# Each slip in turn: a slip of the pen, a nutrient, no name, three names, a form, a record as JSON, a week, two of one name.
$ K="$CASES/trace.quern"
$ "$QUERN" trace Gruell --kitchen "$K"
$ "$QUERN" trace Gruel sodum --kitchen "$K"
$ "$QUERN" trace --kitchen "$K"
$ "$QUERN" trace a b c
$ "$QUERN" trace Gruel --as csv --kitchen "$K"
$ "$QUERN" trace Gruel --record --as json --kitchen "$K"
$ "$QUERN" trace "Class week" --kitchen "$CASES/day-report.quern"
$ mkdir two && cp "$K" two/a.quern && cp "$K" two/b.quern && "$QUERN" trace Gruel --kitchen two
$ "$QUERN" trace Gruel --kitchen nowhere
status 2
err no recipe or day is called "Gruell"; near names are "Gruel"
err no nutrient is called "sodum"; reports list those that there are
err write the name of a recipe behind it
err `csv` is no form; these are: text json markdown html
err a record has no JSON
err "Class week" is a week, the average of its days; trace one of its days
err two are called "Gruel"; rename one
err nowhere: No such file or directory
