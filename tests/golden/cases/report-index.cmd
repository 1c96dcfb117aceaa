# What nobody knows may be the most: by a nutrient it stands first, not at the end as 0.
$ printf 'recipe "Plain" {\n    serves 1\n    1 cup milk\n}\nrecipe "Secret" {\n    serves 1\n    1 cup milk\n    some table salt\n}\nrecipe "Bare" {\n    serves 1\n    some table salt\n}\n' > a.quern; "$QUERN" report --as markdown --out site a.quern > said; grep '^| \[\|Nobody' site/index-by-sodium.md
status 0
out **Nobody knows how much: it may be the most**
out | [Secret](secret.md) | at least 100 mg |
out | [Bare](bare.md) | at least 0 mg |
out | [Plain](plain.md) | 105 mg |
# A week stands beside what it is held to, by its average; a day that goes beyond is told.
$ printf 'day "Low" { 1 cup milk }\nday "High" { 1 tsp table salt; 1 cup milk }\nweek "Held" {\n    day "Low"\n    day "High"\n    limit sodium at most 2300 mg\n    limit sodium at most 900 mg\n}\nweek "Well" {\n    day "Low"\n    limit sodium at most 2300 mg\n}\nweek "Free" { day "Low" }\n' > a.quern; "$QUERN" report --as markdown --out site a.quern > said; grep 'held.md\|well.md\|free.md' site/index.md
status 0
out 1 limit broken, 1 kept on average, not each day
out [Well](well.md)
out | kept |
out [Free](free.md)
out | none stands |
