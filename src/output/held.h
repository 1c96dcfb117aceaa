/* How figures stand to what they are held to, as every sheet that shows figures tells it. */
#ifndef QUERN_OUTPUT_HELD_H
#define QUERN_OUTPUT_HELD_H

#include "output/sheet.h"

/* The outcome in words: `kept`, `BROKEN`, `in doubt`; of a goal `missed`. And its tone. */
struct text held_outcome(const struct verdict *verdict);
enum tone held_tone(const struct verdict *verdict);

/* The side of a bound with its figure: `at most 350 mg`. */
struct text held_bound(struct sheet *sheet, const struct library *library, const struct bound *bound);

/* What is bounded, how, and by whom: `limit: sodium per serving at most 350 mg (House)`. */
struct text held_limit(struct sheet *sheet, const struct library *library, const struct verdict *verdict);

/* What there is, as exact as the bound asks for: `360 mg (351 to 369 mg)`. */
struct text held_value(struct sheet *sheet, const struct library *library, const struct verdict *verdict);

/* All of it: `BROKEN: limit: sodium per serving at most 350 mg (House); it is 360 mg (351 to 369 mg)`. */
struct text held_words(struct sheet *sheet, const struct library *library, const struct verdict *verdict);

/* How a recipe, day or week stands to all that it is held to. */
enum standing_rank { STANDING_BROKEN, STANDING_DOUBT, STANDING_MISSED, STANDING_KEPT, STANDING_FREE, STANDING_COUNT };

struct standing {
    enum standing_rank rank;
    uint32_t broken, doubt, missed;     /* limits; limits and goals; goals */
    uint32_t beyond;                    /* what a week keeps on average, and not on each day */
};

/* What one verdict by itself makes of it. And all of them; `beyond`: as above, 0 of a recipe or day. */
enum standing_rank standing_rank_of(const struct verdict *verdict);
struct standing standing_of(const struct verdicts *verdicts, uint32_t beyond);

/* `1 limit broken, 2 in doubt`, `kept`, `none stands`; and its tone. */
struct text standing_words(struct sheet *sheet, const struct standing *standing);
enum tone standing_tone(const struct standing *standing);

#endif
