$ "$QUERN" salts "soy sauce"
status 2
err it tells of the whole library and takes no `soy sauce`; `quern lookup soy sauce` tells of one food
