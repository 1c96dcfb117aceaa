/* One food in our language. Its head is written later, when it is known whether its name is taken; here its body is made
 * and put aside. */
#include <string.h>

#include "import/parts.h"

#define SOURCE_BYTES 200
#define NUMBER_WORDS 6
#define LINE_BYTES 96               /* of figures, before the next line begins */

void food_open(struct made_food *food, struct allocator allocator)
{
    *food = (struct made_food){ .row = 0 };
    buffer_open(&food->name, allocator);
    buffer_open(&food->source, allocator);
    buffer_open(&food->portions, allocator);
}

void food_close(struct made_food *food)
{
    buffer_close(&food->name);
    buffer_close(&food->source);
    buffer_close(&food->portions);
}

void food_reset(struct made_food *food)
{
    food->name.length = food->source.length = food->portions.length = 0;
    food->number = food->group = (struct text){ NULL, 0 };
    food->figures.known = 0;
    food->portion_count = 0;
    food->density = 0;
}

/* ---- portions ------------------------------------------------------------------------------------------------------ */

/* `1 1/2 cup` and `1 to 2 cups` would be read as other numbers, and `1 oz = 28 g` says nothing. */
static bool is_measure(const struct import *import, struct text words)
{
    const char *blank = memchr(words.bytes, ' ', words.length);
    struct text first = { words.bytes, blank ? (uint32_t)(blank - words.bytes) : words.length };
    const struct unit *unit = figure_unit(import, first);
    bool is_number = *first.bytes >= '0' && *first.bytes <= '9';
    return !is_number && !text_is(first, "to") && !(unit && (unit->dimension == DIMENSION_MASS || unit->dimension == DIMENSION_AMBIGUOUS));
}

bool food_add_portion(struct import *import, struct made_food *food, double count, struct text words, double grams)
{
    struct buffer *portions = &food->portions;
    size_t start = portions->length;
    if (count <= 0 || grams <= 0)
        return false;
    buffer_add_string(portions, "    ");
    number_add(portions, count);
    buffer_add_string(portions, " ");
    size_t begin = portions->length;
    uint32_t added = words_add(portions, words, LIMIT_NAME_WORDS);
    struct text name = { portions->bytes + begin, (uint32_t)(portions->length - begin) };
    if (added == 0 || portions->failed || !is_measure(import, name) || !words_fit(portions, begin)) {
        portions->length = start;
        return false;
    }
    buffer_add_string(portions, " = ");
    number_add(portions, grams);
    buffer_add_string(portions, " g\n");
    food->portion_count++;
    return true;
}

/* ---- the body --------------------------------------------------------------------------------------------------------- */

static void add_figure(struct import *import, struct buffer *body, uint32_t number, double amount)
{
    const struct library *owner;
    const struct nutrient *nutrient = library_nutrient_at(import->library, number, &owner);
    struct text name = library_text(owner, nutrient->name), unit = library_text(owner, nutrient->unit);
    buffer_add(body, name.bytes, name.length);
    buffer_add_string(body, " ");
    number_add(body, amount);
    buffer_add_string(body, " ");
    buffer_add(body, unit.bytes, unit.length);
}

static void add_figures(struct import *import, struct buffer *body, const struct made_food *food)
{
    size_t line = body->length;
    bool first = true;
    buffer_add_string(body, "    per ");
    number_add(body, food->basis_grams);
    buffer_add_string(body, " g {\n        ");
    for (uint32_t i = 0; i < import->library->nutrient_total; i++) {
        if (!(food->figures.known >> i & 1))
            continue;
        bool breaks = body->length - line > LINE_BYTES;
        if (!first)
            buffer_add_string(body, breaks ? "\n        " : "; ");
        if (breaks || first)
            line = body->length;
        first = false;
        add_figure(import, body, i, food->figures.amounts[i]);
    }
    buffer_add_string(body, "\n    }\n");
}

/* source "TEXT NUMBER": what the request says, or the mapping, or else the file's name. */
static void add_source(struct import *import, struct buffer *body, const struct made_food *food)
{
    const struct import_request *request = import->request;
    struct text given = request->source ? text_of(request->source) : import->mapping.source;
    struct text said = given.length > 0 ? given : import->file_names[ROLE_FOODS];
    buffer_add_string(body, "    source \"");
    words_add_quoted(body, said, SOURCE_BYTES);
    if (food->source.length > 0) {
        buffer_add_string(body, ", ");
        words_add_quoted(body, (struct text){ food->source.bytes, (uint32_t)food->source.length }, SOURCE_BYTES);
    }
    buffer_add_string(body, " ");
    if (food->number.length > 0)
        words_add_quoted(body, food->number, SOURCE_BYTES);
    else
        buffer_print(body, "row %llu", (unsigned long long)food->row);
    buffer_add_string(body, "\"\n");
}

static void make_body(struct import *import, struct buffer *body, const struct made_food *food)
{
    body->length = 0;
    if (food->group.length > 0)
        buffer_print(body, "    group %.*s\n", (int)food->group.length, food->group.bytes);
    add_figures(import, body, food);
    buffer_add(body, food->portions.bytes, food->portions.length);
    if (food->density > 0) {
        buffer_add_string(body, "    density ");
        number_add(body, food->density);
        buffer_add_string(body, " g per ml\n");
    }
    add_source(import, body, food);
}

bool food_finish(struct import *import, struct made_food *food)
{
    struct buffer *body = &import->body, *work = &import->work;
    import->foods_seen = food->row > import->foods_seen ? food->row : import->foods_seen;
    if (food->figures.known == 0) {
        import->outcome->without_figures++;
        return true;
    }
    make_body(import, body, food);
    work->length = 0;
    if (food->number.length > 0)
        words_add(work, food->number, NUMBER_WORDS);
    if (work->length == 0)
        buffer_print(work, "%llu", (unsigned long long)food->row);
    if (body->failed || work->failed || food->name.failed || food->portions.failed || food->source.failed)
        return trouble_memory(import);
    return shelf_add(import, food, (struct text){ work->bytes, (uint32_t)work->length },
                     (struct text){ body->bytes, (uint32_t)body->length });
}
