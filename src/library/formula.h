/* formula: what a chemical formula says of mass. It knows no element; who reads it finds them. */
#ifndef QUERN_LIBRARY_FORMULA_H
#define QUERN_LIBRARY_FORMULA_H

#include "library/library.h"

enum formula_trouble {
    FORMULA_SOUND,
    FORMULA_EMPTY,              /* no element, in all of it or in a part or in parentheses */
    FORMULA_UNKNOWN_ELEMENT,
    FORMULA_UNBALANCED,         /* a parenthesis or bracket without its partner */
    FORMULA_BAD_NUMBER,         /* 0, with a 0 before it, or above LIMIT_FORMULA_NUMBER */
    FORMULA_STRAY,              /* a sign that no formula holds */
    FORMULA_TOO_DEEP,           /* more than LIMIT_FORMULA_DEPTH parentheses inside one another */
};

/* The element with this symbol, or NULL. `context` is what formula_read was given. */
typedef const struct element *element_finder(const void *context, struct text symbol);

struct formula {
    double mass;                        /* of one formula unit, in the unit of the elements' weights */
    double counted[LIMIT_NUTRIENTS];    /* how much of it counts as each nutrient */
};

/* Reads `NaHCO3`, `Ca(H2PO4)2`, `K4[Fe(CN)6]`, `Na3C6H5O7·2H2O`: elements and groups with whole numbers behind them, and
 * parts that `·`, `.` or `*` joins, each with a number before it, which may have decimals (`CaSO4·0.5H2O`). Digits may be
 * subscripts. With trouble `at` is the place in the text, and what stands in `formula` means nothing. */
enum formula_trouble formula_read(struct text written, element_finder *find, const void *context,
                                  struct formula *formula, struct span *at);

#endif
