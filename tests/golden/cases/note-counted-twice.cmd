$ "$QUERN" check "$CASES/note-counted-twice.quern"
status 0
out note-counted-twice.quern:5:5: warning: salt may be counted twice: the figures of pasta boiled in salted water hold it already, and table salt brings it again [counted-twice]
out pasta boiled in salted water stands here
out boiled pasta, with 1 mg sodium per 100 g instead of 131 mg
out boiled white rice, with 1 mg sodium per 100 g instead of 382 mg
out chicken breast with added solution was salted by its maker, and is `brined` here
out chicken breast, with 45 mg sodium per 100 g instead of 173 mg
