# A stranger's kitchen: a folder of it is a bare repository with settings of its own, and the repository itself names programs for
# whatever git may want to run. Nothing runs, and nothing is told as if it had been read. Each way leaves a file if it does.
$ D=$PWD; export HOME=$D; export GIT_AUTHOR_NAME=a GIT_AUTHOR_EMAIL=a GIT_COMMITTER_NAME=a GIT_COMMITTER_EMAIL=a
$ printf '#!/bin/sh\ntouch "%s/RAN-$1"\n' "$D" > run && chmod +x run && git init -q --bare evil && git init -q victim
$ B=1234567890123456789012345678901234567890
$ cd evil; T=$(printf "100644 blob $B\ta.quern\n100644 blob $B\tkitchen.quern\n" | git mktree --missing); git commit-tree -m x $T > refs/heads/master; git symbolic-ref HEAD refs/heads/master
$ printf '[core]\n\trepositoryformatversion = 1\n\tbare = true\n\tfsmonitor = %s/run fsmonitor\n[remote "origin"]\n\turl = ext::%s/run bare\n\tpromisor = true\n\tpartialclonefilter = blob:none\n[protocol "ext"]\n\tallow = always\n[extensions]\n\tpartialClone = origin\n' "$D" "$D" > config
$ cd ../victim; mkdir soups; printf 'kitchen "S"\n' > soups/kitchen.quern; printf 'recipe "Soup" {\n serves 2\n 300 g carrots\n}\n' > soups/a.quern
$ cp -r ../evil/HEAD ../evil/config ../evil/objects ../evil/refs soups/; git add -A; git commit -qm pr; cd ..; git clone -q victim clone 2>&1; cd clone
$ "$QUERN" compare --since HEAD --kitchen soups Soup; echo "bare: $?"
$ cd ..; git init -q plain; cd plain; printf 'kitchen "S"\n' > kitchen.quern; printf 'recipe "Soup" {\n serves 2\n 300 g carrots\n}\n' > a.quern; printf '*.quern filter=evil diff=evil\n' > .gitattributes; git add -A; git commit -qm one
$ git config core.fsmonitor "$D/run fsmonitor"; git config core.hooksPath "$D"; git config filter.evil.smudge "$D/run smudge"; git config diff.evil.textconv "$D/run textconv"; git config diff.external "$D/run external"; git config core.pager "$D/run pager"; git config core.sshCommand "$D/run ssh"; git config core.askPass "$D/run"; git config core.alternateRefsCommand "$D/run alternates"
$ "$QUERN" compare --since HEAD Soup > /dev/null; echo "plain: $?"
$ O=.git/objects; blob=$(git rev-parse HEAD:a.quern); mv $O/$(echo $blob | cut -c1-2)/$(echo $blob | cut -c3-) "$D/kept"; git config remote.origin.url "ext::$D/run lazy"; git config remote.origin.promisor true; git config extensions.partialClone origin; git config core.repositoryFormatVersion 1; git config protocol.ext.allow always
$ GIT_CONFIG_COUNT=1 GIT_CONFIG_KEY_0=protocol.ext.allow GIT_CONFIG_VALUE_0=always GIT_ALLOW_PROTOCOL=ext "$QUERN" compare --since HEAD Soup; echo "missing: $?"
$ ls "$D" | grep RAN; true
status 0
out bare: 2
out plain: 0
out missing: 2
lacks RAN
