# Salt was halved since the first commit: 3 tsp = 18 g of table salt in 4 servings hold 6976.44 mg, 1744.11 mg each; half of
# that is gone, whatever the kosher salt that stays holds. Files of the repository stay as they are.
$ git init -q . && git config user.email cook@example.org && git config user.name Cook && git config commit.gpgsign false
$ mkdir scratch && export TMPDIR="$PWD/scratch" && echo scratch >> .git/info/exclude
$ mkdir -p kitchen/soups && cd kitchen && printf 'kitchen "Trial"\n' > kitchen.quern
$ printf 'recipe "Old soup" { serves 4; 1 l water; 1 tsp kosher salt; 3 tsp table salt }\n' > soups/soup.quern
$ git add . && git commit -q -m one
$ printf 'recipe "Old soup" { serves 4; 1 l water; 1 tsp kosher salt; 1 1/2 tsp table salt }\nrecipe "New soup" { serves 4; 1 l water }\n' > soups/soup.quern
$ git add . && git commit -q -m two && git tag second && git status --porcelain
$ GIT_DIR=/nowhere "$QUERN" compare "old soup" --since HEAD~1
$ "$QUERN" compare "Old soup" --since second --kitchen soups/soup.quern
$ "$QUERN" compare "New soup" --since HEAD~1
$ "$QUERN" compare "New soup" --since never
$ "$QUERN" compare "New soup" --since --output=x
$ cd .. && mkdir later && printf 'recipe "Late soup" { serves 4; 1 l water }\n' > later/late.quern
$ "$QUERN" compare "Late soup" --since HEAD --kitchen later/late.quern
$ env PATH=/nowhere "$QUERN" compare "Old soup" --since HEAD --kitchen kitchen
$ echo "left behind: $(ls "$TMPDIR" | wc -l), changed: $(git status --porcelain kitchen | wc -l)"; "$QUERN" compare "Late soup" --since never --kitchen later/late.quern
status 2
out left behind: 0, changed: 0
out Old soup, against what it was at HEAD~1
out first: Old soup (recipe, soups/soup.quern:1 at HEAD~1)
out sodium per serving: the second holds 872 mg less
out Of 2 lines each is the same in both.
out Both are the same through and through.
err "New soup" was not there yet at HEAD~1, or had another name
err git knows no revision "never"; `git log --oneline` lists those there are
err "--output=x" is no revision
err nothing of this kitchen was there yet at HEAD
err git is not installed, and --since reads what it keeps
