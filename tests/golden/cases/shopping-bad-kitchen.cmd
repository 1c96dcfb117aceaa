$ mkdir empty; "$QUERN" shopping --kitchen empty
status 2
err no .quern file is in this folder
