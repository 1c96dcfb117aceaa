$ "$QUERN" shopping --kitchen "$CASES/shopping" Plat
status 2
err no recipe, day or week is called "Plat"; near names are "Plate"
