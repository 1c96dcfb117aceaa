$ "$QUERN" shopping --kitchen "$CASES/shopping" Plaet
status 2
err no recipe, day or week is called "Plaet"; near names are "Plate"
