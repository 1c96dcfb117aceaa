/* What a caution is told for: whether one of its conditions is met, and the words for it. One too many is a nuisance, one too few
 * may hurt somebody: what cannot be told counts as there. */
#include <stdio.h>
#include <string.h>

#include "judge/judge.h"

#define LINES_LOOKED_AT 100000u         /* recipes inside recipes, line by line; beyond that nobody is asked any more */

#define RECIPES_REMEMBERED 256          /* one that is forgotten is gone through again */

struct looking {
    const struct library *library;
    const struct library *owner;        /* of the condition */
    const struct when *when;
    uint32_t looked;
    const struct recipe *without[RECIPES_REMEMBERED];  /* recipes that were gone through and have none, by their hash */
    struct text found;                  /* the name of what was found */
};

/* ---- what is in it ------------------------------------------------------------------------------------------------- */

static bool label_lists(struct looking *looking, struct food_at label)
{
    struct text kind = library_text(looking->owner, looking->when->words);
    for (uint32_t i = 0; i < label.food->listed_count; i++) {
        const struct listed *listed = &label.library->listed[label.food->first_listed + i];
        if (!text_equal(library_text(label.library, listed->kind), kind))
            continue;
        looking->found = library_text(label.library, listed->written);
        return true;
    }
    return false;
}

static bool is_of_group(const struct looking *looking, struct food_at food)
{
    return library_group_distance(looking->library, food.food->group, looking->when->number) != NONE_INDEX;
}

/* So much of the nutrient, or more, in 100 g of it. */
static bool brings(const struct looking *looking, struct food_at food)
{
    const struct when *when = looking->when;
    return is_of_group(looking, food) && food.food->basis == FOOD_PER_100_G && food.food->known >> when->nutrient & 1
        && food.library->values[food.food->values + when->nutrient].high >= when->amount;
}

static bool food_fits(struct looking *looking, struct food_at food)
{
    struct text source;
    const struct when *when = looking->when;
    if (when->kind == WHEN_LISTED)
        return label_lists(looking, food);
    looking->found = library_text(food.library, food.food->name);
    switch (when->kind) {
    case WHEN_BRINGS: return brings(looking, food);
    case WHEN_MEDICINE: return food.food->flags & FOOD_IS_MEDICINE;
    case WHEN_HAZARD: return text_equal(library_hazard(food, &source), library_text(looking->owner, when->words));
    default: return is_of_group(looking, food);
    }
}

bool caution_fits_food(const struct library *library, const struct library *owner, const struct when *when, struct food_at food)
{
    struct looking looking = { .library = library, .owner = owner, .when = when };
    bool of_food = when->kind == WHEN_FOOD || when->kind == WHEN_BRINGS || when->kind == WHEN_LISTED || when->kind == WHEN_MEDICINE;
    return of_food && food.food && food_fits(&looking, food);
}

static bool recipe_holds(struct looking *looking, struct recipe_at at, uint32_t depth);

static bool subject_fits(struct looking *looking, const struct resolved *resolved, uint32_t depth)
{
    if (!resolved)
        return false;
    if (resolved->subject == SUBJECT_RECIPE && resolved->recipe.recipe)
        return recipe_holds(looking, resolved->recipe, depth + 1);
    return resolved->food.food && food_fits(looking, resolved->food);
}

/* What it is made of, and what that is made of. */
static bool recipe_holds(struct looking *looking, struct recipe_at at, uint32_t depth)
{
    const struct recipe **without = &looking->without[hash_bytes(&at.recipe, sizeof at.recipe) % RECIPES_REMEMBERED];
    if (depth > LIMIT_NESTING || *without == at.recipe)
        return false;                   /* too deep: a cycle, or deeper than any recipe is computed; an error speaks of it */
    for (uint32_t i = 0; i < at.recipe->line_count; i++) {
        struct line line = gathering_line(at.gathering, at.recipe->first_line + i);
        if (++looking->looked > LINES_LOOKED_AT) {
            looking->found = text_of("too much to look through");
            return true;
        }
        if (line.tail != NONE_INDEX && subject_fits(looking, at.gathering->tails[line.tail].resolved, depth))
            return true;
    }
    *without = at.recipe;
    return false;
}

static bool lines_hold(struct looking *looking, const struct sums *sums)
{
    for (uint32_t i = 0; i < sums->line_count; i++) {
        if (subject_fits(looking, sums->lines[i].resolved, 0))
            return true;
    }
    return false;
}

/* ---- how much of it ------------------------------------------------------------------------------------------------ */

/* The lines that are such foods themselves. False where one is unknown, or a recipe in it has some. */
static bool lines_amount(const struct looking *looking, const struct sums *sums, uint32_t column, double *amount)
{
    *amount = 0;
    for (uint32_t i = 0; i < sums->line_count; i++) {
        struct looking one = *looking;
        const struct line_amount *line = &sums->lines[i];
        if (!subject_fits(&one, line->resolved, 0))
            continue;
        if (line->resolved->subject != SUBJECT_FOOD || line->unknown || line->incomplete >> column & 1)
            return false;
        *amount += line_column(line, looking->library, column).best;
    }
    return true;
}

/* `potassium chloride salt substitute is in it: about 1230 mg potassium a serving`. Where only some columns were added up, or one
 * of them is unknown, it says no amount. */
static int print_food(const struct cautious *cautious, const struct looking *looking, uint32_t nutrient, char *storage, size_t size)
{
    char amount[48];
    double held = 0;
    const struct sums *sums = cautious->sums;
    const struct library *library = looking->library;
    const struct recipe *recipe = sums->at.recipe;
    bool serves = recipe->serves.best > 0;
    int cut = looking->found.length > 80 ? 80 : (int)looking->found.length;
    bool known = nutrient != NONE_INDEX && !sums->asked && lines_amount(looking, sums, nutrient, &held) && held > 0;
    if (!known)
        return snprintf(storage, size, "%.*s is in it", cut, looking->found.bytes);
    struct bound bound = { .column = nutrient, .over = NONE_INDEX };
    struct text name = column_name(library, nutrient);
    struct text printed = print_amount(amount, sizeof amount, held / (serves ? recipe->serves.best : 1), bound_column_unit(library, &bound));
    return snprintf(storage, size, "%.*s is in it, with about %.*s %.*s %s", cut, looking->found.bytes, (int)printed.length, printed.bytes,
                    (int)name.length, name.bytes, serves ? "a serving" : recipe->is_day ? "in the day" : "in all");
}

/* At least so many grams of foods of the group; where nobody knows how many, they may be that many. */
static bool is_so_much(const struct cautious *cautious, struct looking *looking)
{
    double grams = 0;
    const struct sums *sums = cautious->sums;
    if (!lines_hold(looking, sums))
        return false;
    bool known = !sums->asked && lines_amount(looking, sums, looking->library->mass_column, &grams);
    return !known || grams >= looking->when->amount;
}

/* ---- conditions ---------------------------------------------------------------------------------------------------- */

static bool is_for(const struct cautious *cautious, struct text person)
{
    for (uint32_t i = 0; i < cautious->person_count; i++) {
        if (text_equal(cautious->persons[i], person))
            return true;
    }
    return false;
}

static int print_reason(const struct cautious *cautious, struct looking *looking, uint32_t nutrient, char *storage, size_t size)
{
    const struct when *when = looking->when;
    struct text words = library_text(looking->owner, when->words), name;
    bool found;
    switch (when->kind) {
    case WHEN_GOAL:
        name = column_name(looking->library, when->number);
        return cautious->goals >> when->number & 1 ? snprintf(storage, size, "%.*s is a goal here", (int)name.length, name.bytes) : 0;
    case WHEN_PERSON:
        return is_for(cautious, words) ? snprintf(storage, size, "it is for: %.*s", (int)words.length, words.bytes) : 0;
    case WHEN_CRAFT:
        return recipe_crafts(cautious->sums) & when->number ? snprintf(storage, size, "its words say that it keeps for long") : 0;
    case WHEN_SALTED_CRAFT:
        return recipe_keeps_by(cautious->sums, when->number) ? snprintf(storage, size, "its words say that salt keeps it") : 0;
    case WHEN_AMOUNT:
        return is_so_much(cautious, looking) ? snprintf(storage, size, "%.*s is in it", (int)looking->found.length, looking->found.bytes) : 0;
    case WHEN_LISTED:
        found = lines_hold(looking, cautious->sums);
        return found ? snprintf(storage, size, "a packet in it lists %.*s", looking->found.length > 80 ? 80 : (int)looking->found.length, looking->found.bytes) : 0;
    default: return lines_hold(looking, cautious->sums) ? print_food(cautious, looking, nutrient, storage, size) : 0;
    }
}

bool caution_is_met(const struct cautious *cautious, const struct library *owner, const struct when *when, uint32_t nutrient,
                    char *storage, size_t size, struct text *reason)
{
    struct looking looking = { .library = cautious->kitchen->library, .owner = owner, .when = when };
    int length = print_reason(cautious, &looking, nutrient, storage, size);
    *reason = (struct text){ storage, (size_t)length < size ? (uint32_t)length : (uint32_t)size - 1 };
    return length > 0;
}
