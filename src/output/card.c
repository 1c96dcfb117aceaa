/* The card of a library food, and what is offered when there is none of that name. */
#include "output/output.h"

static const char *const origin_words[] = { "in it by nature", "put in by makers", "added by the cook",
                                            "cannot be told apart" };

static void print_aliases(struct writer *writer, struct food_at food)
{
    bool head = false;
    uint32_t index = (uint32_t)(food.food - food.library->foods);
    for (uint32_t i = 0; i < food.library->names_count; i++) {
        const struct name *name = &food.library->names[i];
        struct text written = library_text(food.library, name->written);
        if (name->space != SPACE_FOOD || name->index != index || text_equal(written, library_text(food.library, food.food->name)))
            continue;
        writer_print(writer, "%s%.*s", head ? ", " : "also: ", (int)written.length, written.bytes);
        head = true;
    }
    writer_print(writer, "%s", head ? "\n" : "");
}

static void print_food_portions(struct writer *writer, struct food_at food)
{
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        const struct portion *portion = &food.library->portions[food.food->first_portion + i];
        struct text unit = library_text(food.library, portion->unit), state = library_text(food.library, portion->state);
        writer_print(writer, "  1 %.*s%s%.*s = %.4g g", (int)unit.length, unit.bytes, state.length ? " " : "",
                     (int)state.length, state.bytes, portion->grams.best);
        if (!range_is_exact(portion->grams))
            writer_print(writer, " (%.4g to %.4g)", portion->grams.low, portion->grams.high);
        writer_print(writer, "\n");
    }
}

static void print_food_amount(struct writer *writer, struct food_at food, struct text name, struct text unit, uint32_t column)
{
    struct range amount = food.library->values[food.food->values + column];
    writer_print(writer, "  %-20.*s ", (int)name.length, name.bytes);
    if (!(food.food->known >> column & 1))
        writer_print(writer, "unknown\n");
    else if (range_is_exact(amount))
        writer_print(writer, "%.6g %.*s\n", amount.best, (int)unit.length, unit.bytes);
    else
        writer_print(writer, "%.6g %.*s (%.6g to %.6g)\n", amount.best, (int)unit.length, unit.bytes, amount.low, amount.high);
}

static void print_food(struct writer *writer, const struct library *library, struct food_at food)
{
    static const char *const states[] = { "", "figures are for the whole can, liquid and all\n",
                                          "figures are for the drained food\n",
                                          "the source does not say whether figures are for the whole can or drained\n" };
    struct text name = library_text(food.library, food.food->name), source = library_text(food.library, food.food->source);
    const struct group *group = food.food->group == NONE_INDEX ? NULL : library_group_at(library, food.food->group);
    writer_print(writer, "%.*s\n", (int)name.length, name.bytes);
    print_aliases(writer, food);
    if (group) {
        struct text words = library_text(library, group->name);
        writer_print(writer, "group: %.*s\n", (int)words.length, words.bytes);
    }
    writer_print(writer, "%s\nportions\n", states[food.food->state]);
    print_food_portions(writer, food);
    writer_print(writer, "\nper 100 g\n");
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        const struct library *owner;
        const struct nutrient *nutrient = library_nutrient_at(library, i, &owner);
        print_food_amount(writer, food, library_text(owner, nutrient->name), library_text(owner, nutrient->unit), i);
    }
    for (uint32_t i = 0; library->traced != NONE_INDEX && i < ORIGIN_COUNT; i++) {
        struct range amount = food.library->values[food.food->values + library->origin_column + i];
        if (amount.high > 0)
            writer_print(writer, "  of the sodium, %s: %.6g mg\n", origin_words[i], amount.best);
    }
    writer_print(writer, "\nsource: %.*s\n", (int)source.length, source.bytes);
}

static void print_near(struct writer *writer, const struct library *library, struct text words)
{
    struct near_name near[10];
    uint32_t count = library_near(library, 1u << SPACE_FOOD | 1u << SPACE_SHELF, words, near, COUNT_OF(near));
    writer_print(writer, "no food is called `");
    writer_visible(writer, words);
    writer_print(writer, count ? "`; near names are:\n" : "`, and no name lies near it\n");
    for (uint32_t i = 0; i < count; i++) {
        struct text name = library_text(near[i].library, near[i].name->written);
        writer_print(writer, "  %.*s\n", (int)name.length, name.bytes);
    }
}

static void print_shelf(struct writer *writer, struct text words, const struct library *owner, const struct shelf *shelf)
{
    writer_print(writer, "%.*s comes in kinds:\n", (int)words.length, words.bytes);
    for (uint32_t i = 0; i < shelf->kind_count; i++) {
        struct text kind = library_text(owner, owner->texts[shelf->first_kind + i]);
        writer_print(writer, "  %.*s\n", (int)kind.length, kind.bytes);
    }
}

bool card_look_up(struct writer *writer, const struct library *library, struct text words)
{
    char key[KEY_BYTES];
    const struct shelf *shelf;
    struct text found = { key, name_key_of(words, false, key) };
    struct food_at food = library_food(library, found);
    const struct library *owner = library_shelf(library, found, &shelf).library;
    if (food.food)
        print_food(writer, library, food);
    else if (shelf)
        print_shelf(writer, words, owner, shelf);
    else
        print_near(writer, library, words);
    return food.food || shelf;
}
