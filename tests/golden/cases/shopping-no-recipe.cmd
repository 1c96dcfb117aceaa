$ printf '# nothing\n' > a.quern; "$QUERN" shopping
status 2
err no recipe is here; `--kitchen` says where the kitchen lies
