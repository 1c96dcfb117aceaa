/* `ingredients "water, salt, potassium chloride"`: the text of the packet is parted into what stands between commas,
 * parentheses and the like, and each of these is held against the kinds of substances that the library knows. */
#include <stdio.h>
#include <string.h>

#include "library/label.h"

/* ---- parting --------------------------------------------------------------------------------------------------- */

static bool parts_here(struct text text, uint32_t at)
{
    char byte = text.bytes[at];
    bool ends = at + 1 == text.length || text.bytes[at + 1] == ' ' || text.bytes[at + 1] == '\n';
    return strchr(",;:()[]{}*&/|+\n", byte) != NULL || (byte == '.' && ends);
}

/* ` and ` parts as a comma does. */
static uint32_t word_between(struct text text, uint32_t at, const char *word)
{
    uint32_t size = (uint32_t)strlen(word);
    return at + size <= text.length && memcmp(text.bytes + at, word, size) == 0 ? size : 0;
}

static struct text trimmed(struct text text)
{
    while (text.length && (text.bytes[0] == ' ' || text.bytes[0] == '\t' || text.bytes[0] == '\r'))
        text = (struct text){ text.bytes + 1, text.length - 1 };
    while (text.length && strchr(" \t\r.", text.bytes[text.length - 1]))
        text.length--;
    return text;
}

/* The next ingredient from `*at` on, which moves behind it; false at the end of the list. */
static bool next_ingredient(struct text text, uint32_t *at, struct text *found)
{
    while (*at < text.length) {
        uint32_t start = *at, skip = 0;
        while (*at < text.length && !(skip = parts_here(text, *at)) && !(skip = word_between(text, *at, " and ")) && !(skip = word_between(text, *at, " or ")))
            (*at)++;
        *found = trimmed((struct text){ text.bytes + start, *at - start });
        *at += skip;
        if (found->length)
            return true;
    }
    return false;
}

/* ---- searching --------------------------------------------------------------------------------------------------- */

/* Whether the whole ingredient is a food of a group that tells the substance, and holds what that holds. */
static bool is_such_food(const struct library *whole, const struct library *library, const struct substance *substance, struct text written)
{
    char key[KEY_BYTES];
    struct food_at food = library_food(whole, (struct text){ key, name_key_of(written, false, key) });
    if (!food.food || substance->nutrient == NONE_INDEX || food.library->values[food.food->values + substance->nutrient].low <= 0)
        return false;
    for (uint32_t i = 0; i < substance->group_count; i++) {
        if (library_group_distance(whole, food.food->group, library->references[substance->first_group + i]) != NONE_INDEX)
            return true;
    }
    return false;
}

static bool tells(const struct library *whole, const struct library *library, const struct substance *substance,
                  struct text key_words, struct text written)
{
    if (is_such_food(whole, library, substance, written))
        return true;
    return words_hold_one(library, key_words, substance->first_words, substance->words_count)
        && !words_hold_one(library, key_words, substance->first_without, substance->without_count);
}

/* Once for each kind that one ingredient tells. */
static void add_listed(struct making *making, const struct library *library, const struct substance *substance, struct text written)
{
    struct builder *builder = making->builder;
    struct text kind = library_text(library, substance->name);
    for (uint32_t i = making->food.first_listed; i < builder->listed_count; i++) {
        if (text_equal(build_string(builder, builder->listed[i].written), written) && text_equal(build_string(builder, builder->listed[i].kind), kind))
            return;
    }
    uint32_t number = BUILD_ADD(builder, listed);
    if (number != NONE_INDEX)
        builder->listed[number] = (struct listed){ build_text(builder, written), build_text(builder, kind), substance->nutrient, 0 };
}

struct ingredient {
    struct making *making;
    struct text written;
};

static void search_words(void *context, struct text run)
{
    const struct ingredient *ingredient = context;
    const struct library *whole = ingredient->making->builder->base;
    for (const struct library *library = whole; library; library = library->base) {
        for (uint32_t i = 0; i < library->substances_count; i++) {
            if (tells(whole, library, &library->substances[i], run, ingredient->written))
                add_listed(ingredient->making, library, &library->substances[i], ingredient->written);
        }
    }
}

static void search_ingredient(struct making *making, struct text written)
{
    words_walk(written, search_words, &(struct ingredient){ making, written });
}

#define MARKS_OF_LISTED 8u              /* bytes of quotes, of the comma before them and of what says that more was cut off */

/* ---- what it comes to ---------------------------------------------------------------------------------------------- */

/* One of several names, cut where it finds no room; the bytes that it took. */
static int show_listed(struct text written, bool again, char *storage, size_t size)
{
    size_t room = size > MARKS_OF_LISTED ? size - MARKS_OF_LISTED : 0;
    const char *cut = written.length > room ? "…" : "";
    int length = (int)(written.length > room ? room : written.length);
    while (*cut && length > 0 && ((unsigned char)written.bytes[length] & 0xc0) == 0x80)
        length--;                           /* not within a sign */
    return room ? snprintf(storage, size, "%s`%.*s%s`", again ? ", " : "", length, written.bytes, cut) : 0;
}

/* All that the list names of the nutrient: `a`, `b`. */
static struct text listed_names(const struct making *making, uint32_t nutrient, char *storage, size_t size)
{
    const struct builder *builder = making->builder;
    int used = 0;
    for (uint32_t i = 0; i < making->food.listed_count; i++) {
        const struct listed *listed = &builder->listed[making->food.first_listed + i];
        struct text written = build_string(builder, listed->written);
        if (listed->nutrient == nutrient)
            used += show_listed(written, used > 0, storage + used, size - (size_t)used);
    }
    return (struct text){ storage, (uint32_t)used };
}

/* A packet that prints none of what its ingredients hold is no mistake: so little was rounded away. What the rules
 * compare the traced nutrient to is told in any case: who must watch it reads the packet for it. */
static void note_listed(struct making *making, const struct node *node, uint32_t nutrient, bool always)
{
    char names[400];
    struct builder *builder = making->builder;
    struct text listed = listed_names(making, nutrient, names, sizeof names);
    struct place place = build_place(builder, node->span);
    if (!listed.length)
        return;
    struct text name = library_text(builder->base, build_nutrient_at(builder, nutrient)->name);
    if (making->food.known >> nutrient & 1 && making_column(making, nutrient)->best == 0)
        finding_add(builder->findings, FINDING_LABEL_LISTED_ZERO, place, GAPS(name, listed));
    if (always)
        finding_add(builder->findings, FINDING_LABEL_LISTED, place, GAPS(listed, name));
}

void label_read_ingredients(struct making *making, const struct node *node)
{
    struct builder *builder = making->builder;
    const struct item *string = build_string_item(node->items.first);
    struct text text = build_quoted(builder, node->items.first), found;
    uint32_t at = 0;
    if (!string || string->next || node->quantity.kind != QUANTITY_NONE || node->phrases.first || node->has_body || !trimmed(text).length) {
        finding_add(builder->findings, FINDING_INGREDIENTS_QUOTED, build_place(builder, node->span), NO_GAPS);
        return;
    }
    if (builder->listed_count > making->food.first_listed) {
        finding_add(builder->findings, FINDING_REPEATED_STATEMENT, build_place(builder, node->span), GAPS(text_of("ingredients")));
        return;
    }
    while (builder->base && next_ingredient(text, &at, &found))
        search_ingredient(making, found);
    making->food.listed_count = builder->listed_count - making->food.first_listed;
}

void label_note_listed(struct making *making, const struct node *label)
{
    struct builder *builder = making->builder;
    const struct node *node = label->body;
    while (node && !(node->kind == NODE_KNOWLEDGE && text_is(build_written(builder, node->items.first->span), "ingredients")))
        node = node->next;
    const struct rules *rules = builder->label_rules;
    if (!node || !rules || rules->compare_over == NONE_INDEX)
        return;
    note_listed(making, node, rules->compare_over, false);
    note_listed(making, node, rules->compare_under, true);
}
