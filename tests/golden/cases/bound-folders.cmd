# Sixty-four folders inside one another are read, and the sixty-fifth is not.
$ deep=k; for i in $(seq 64); do deep=$deep/f; done; mkdir -p $deep
$ printf 'recipe "Found" { serves 1; 1 g table salt }\n' > $deep/a.quern
$ "$QUERN" report k | grep Found
$ mkdir $deep/f && "$QUERN" check k
status 2
out Found
err it lies more than 64 folders deep; nothing there was read
