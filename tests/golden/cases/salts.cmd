$ "$QUERN" salts
status 0
out   table salt                                                580         1160  2330 (2200 to 2450)         6980  3880
out   kosher salt                                               380          760  1510 (1000 to 2020)         4530  3880
out   soy sauce                                                  75          150                  290          880   550
out not weighed
out   - table salt: USDA SR28 NDB 02047; range of a teaspoon by spoon tests, 5.93 g and 6.28 g
out Too much potassium can be dangerous
out weigh it and take the
out column “10 g”
lacks last column
lacks olive oil
