/* The sheet of salts: a spoonful of each food that people salt with, and what it holds. Which foods these are, and what a
 * spoon of them weighs, is the library's to say. */
#include <stdlib.h>
#include <string.h>

#include "output/class.h"
#include "model/portion.h"
#include "output/json.h"
#include "output/told.h"

/* The spoons of the sheet, and a weight beside them. */
struct spoon {
    const char *unit;
    double count;
    enum report_phrase words;
};

static const struct spoon spoons[] = {
    { "teaspoon", 0.25, PHRASE_SALT_QUARTER_TEASPOON }, { "teaspoon", 0.5, PHRASE_SALT_HALF_TEASPOON },
    { "teaspoon", 1, PHRASE_SALT_TEASPOON },            { "tablespoon", 1, PHRASE_SALT_TABLESPOON },
    { "gram", 10, PHRASE_SALT_10_G },
};

#define SPOONS COUNT_OF(spoons)
#define SPOON_OF_RANGE 2                /* the teaspoon: its range stands beside it, and foods are sorted by it */

struct salt {
    struct food_at food;
    struct text name, group, hazard;    /* hazard: no bytes of what is for seasoning */
    bool known, weighed[SPOONS];        /* what it holds; what the spoon weighs */
    struct range grams[SPOONS], holds[SPOONS], other[SPOONS];
    bool other_known;
};

struct salts {
    struct page page;
    struct showing *showing;
    uint32_t traced, other;             /* the nutrients that are told; other: the one it is compared to, or NONE_INDEX */
    struct salt *at;
    uint32_t count, capacity;
};

/* ---- gathering ------------------------------------------------------------------------------------------------- */

static bool amount_of(struct food_at food, uint32_t column, struct range *per_100_g)
{
    *per_100_g = food.library->values[food.food->values + column];
    return food.food->known >> column & 1;
}

static void weigh(const struct salts *salts, struct salt *salt, uint32_t number)
{
    char key[KEY_BYTES];
    struct range per_100_g;
    const struct unit *unit = library_unit(salts->page.library, (struct text){ key, name_key_of(text_of(spoons[number].unit), false, key) }, NULL);
    if (!unit)
        return;
    struct range measure = range_scale(unit->factor, spoons[number].count), *grams = &salt->grams[number];
    *grams = measure;
    salt->weighed[number] = unit->dimension == DIMENSION_MASS || food_volume_grams(salt->food, measure, grams);
    if (salt->known && amount_of(salt->food, salts->traced, &per_100_g))
        salt->holds[number] = range_scale(range_multiply(per_100_g, *grams), 0.01);
    if (salt->other_known && amount_of(salt->food, salts->other, &per_100_g))
        salt->other[number] = range_scale(range_multiply(per_100_g, *grams), 0.01);
}

static bool add_food(struct salts *salts, struct allocator *allocator, struct food_at food)
{
    struct range ignored;
    if (!array_grow(allocator, &salts->at, salts->count, &salts->capacity, sizeof *salts->at))
        return false;
    struct salt *salt = &salts->at[salts->count++];
    struct text source;
    *salt = (struct salt){ .food = food, .name = library_text(food.library, food.food->name), .hazard = library_hazard(food, &source) };
    const struct library *owner = food.library;
    while (food.food->group < owner->group_first)
        owner = owner->base;
    salt->group = library_text(owner, library_group_at(owner, food.food->group)->name);
    salt->known = amount_of(food, salts->traced, &ignored);
    salt->other_known = salts->other != NONE_INDEX && amount_of(food, salts->other, &ignored);
    for (uint32_t i = 0; i < SPOONS; i++)
        weigh(salts, salt, i);
    return true;
}

/* What is dangerous stands apart, behind the others: what a teaspoon holds, most first; then what no spoon of is weighed, by weight; then what nobody knows; else by name. */
static int compare_salts(const void *left, const void *right)
{
    const struct salt *a = left, *b = right;
    if ((a->hazard.length > 0) != (b->hazard.length > 0))
        return a->hazard.length > 0 ? 1 : -1;
    bool spoon_a = a->known && a->weighed[SPOON_OF_RANGE], spoon_b = b->known && b->weighed[SPOON_OF_RANGE];
    if (spoon_a != spoon_b)
        return spoon_a ? -1 : 1;
    if (a->known != b->known)
        return a->known ? -1 : 1;
    uint32_t by = spoon_a ? SPOON_OF_RANGE : SPOONS - 1;
    if (a->holds[by].best != b->holds[by].best)
        return a->holds[by].best > b->holds[by].best ? -1 : 1;
    uint32_t shorter = a->name.length < b->name.length ? a->name.length : b->name.length;
    int order = memcmp(a->name.bytes, b->name.bytes, shorter);
    return order ? order : a->name.length < b->name.length ? -1 : a->name.length > b->name.length;
}

static bool gather(struct salts *salts, struct allocator allocator)
{
    for (const struct library *library = salts->page.library; library; library = library->base) {
        for (uint32_t i = 0; i < library->foods_count; i++) {
            struct food_at food = { library, &library->foods[i] };
            bool told = food.food->basis == FOOD_PER_100_G && library_is_used(food, GROUP_SALTY);
            if (told && !add_food(salts, &allocator, food))
                return false;
        }
    }
    if (salts->count)
        qsort(salts->at, salts->count, sizeof *salts->at, compare_salts);
    return true;
}

/* ---- for people ------------------------------------------------------------------------------------------------ */

static struct text figure(const struct salts *salts, struct sheet *sheet, uint32_t nutrient, struct range amount, bool with_range)
{
    const struct page *page = &salts->page;
    struct text best = sheet_print(sheet, "%.6g", page_rounded(page, nutrient, amount.best, ROUND_NEAREST));
    double low = page_rounded(page, nutrient, amount.low, ROUND_DOWN), high = page_rounded(page, nutrient, amount.high, ROUND_UP);
    if (!with_range || range_is_exact(amount) || low == high)
        return best;
    return sheet_say(sheet, PHRASE_RANGE, best, sheet_print(sheet, "%.6g", low), sheet_print(sheet, "%.6g", high));
}

static struct sheet_cell cell(const struct salts *salts, struct sheet *sheet, const struct salt *salt, uint32_t number)
{
    if (!salt->known)
        return cell_words(phrase_text(PHRASE_UNKNOWN));
    if (!salt->weighed[number])
        return cell_words(phrase_text(PHRASE_SALT_NOT_WEIGHED));
    struct range holds = salt->holds[number];
    return cell_figure(figure(salts, sheet, salts->traced, holds, number == SPOON_OF_RANGE), holds.best);
}

static void tell_table(const struct salts *salts, struct sheet *sheet, bool hazards)
{
    struct sheet_column columns[SPOONS + 2] = { { phrase_text(PHRASE_SALT_FOOD), false } };
    struct sheet_cell cells[SPOONS + 2];
    uint32_t count = 1;
    for (uint32_t i = 0; i < SPOONS; i++)
        columns[count++] = (struct sheet_column){ phrase_text(spoons[i].words), true };
    if (salts->other != NONE_INDEX)
        columns[count++] = (struct sheet_column){ sheet_say(sheet, PHRASE_SALT_OTHER, page_name(&salts->page, salts->other)), true };
    sheet_table(sheet, sheet_say(sheet, PHRASE_SALT_TABLE, page_name(&salts->page, salts->traced), page_unit(&salts->page, salts->traced)),
                columns, count);
    for (uint32_t i = 0; i < salts->count; i++) {
        const struct salt *salt = &salts->at[i];
        if ((salt->hazard.length > 0) != hazards)
            continue;
        cells[0] = cell_words(salt->name);
        for (uint32_t j = 0; j < SPOONS; j++)
            cells[1 + j] = cell(salts, sheet, salt, j);
        struct range other = salt->other[SPOON_OF_RANGE];
        bool told = salt->other_known && salt->weighed[SPOON_OF_RANGE];
        if (salts->other != NONE_INDEX)
            cells[1 + SPOONS] = told ? cell_figure(figure(salts, sheet, salts->other, other, false), other.best)
                                     : cell_words(phrase_text(salt->other_known ? PHRASE_SALT_NOT_WEIGHED : PHRASE_UNKNOWN));
        sheet_row(sheet, cells);
    }
    sheet_table_end(sheet);
}

/* What is not for seasoning: what is dangerous in it, each sentence once, and what spoons of it hold. */
static void tell_hazards(const struct salts *salts, struct sheet *sheet)
{
    bool any = false;
    for (uint32_t i = 0; i < salts->count; i++) {
        const struct salt *salt = &salts->at[i];
        bool again = false;
        for (uint32_t j = 0; j < i; j++)
            again = again || text_equal(salts->at[j].hazard, salt->hazard);
        if (!salt->hazard.length || again)
            continue;
        if (!any)
            sheet_heading(sheet, 2, phrase_text(PHRASE_SALT_HAZARDS));
        any = true;
        sheet_paragraph(sheet, MANNER_CAUTION, salt->hazard);
    }
    if (any)
        tell_table(salts, sheet, true);
}

/* What the foods call for, hazards apart, then what is told beside all figures of what is told here. */
static void gather_cautions(const struct salts *salts, struct told_cautions *cautions)
{
    const struct kitchen *kitchen = salts->page.kitchen;
    for (uint32_t i = 0; i < salts->count; i++) {
        if (!salts->at[i].hazard.length)
            cautions_of_food(kitchen->library, kitchen->cautions, kitchen->cautions_owner, salts->at[i].food, told_cautions_add, cautions);
    }
    cautions_of_all(kitchen->cautions, kitchen->cautions_owner, told_cautions_add, cautions);
}

/* Where the weight of a spoon is from, if not from where the figures are: of the teaspoon, else of another measure. */
static struct text spoon_source(const struct salt *salt)
{
    const struct food_at food = salt->food;
    struct pack_text found = { 0 };
    double least = 0;
    for (uint32_t i = 0; i < food.food->portion_count; i++) {
        const struct portion *portion = &food.library->portions[food.food->first_portion + i];
        if (portion->volume_ml <= 0 || portion->state.length || (least > 0 && portion->volume_ml > least))
            continue;
        least = portion->volume_ml;
        found = portion->source;
    }
    return library_text(food.library, found);
}

static void tell_sources(const struct salts *salts, struct sheet *sheet)
{
    sheet_heading(sheet, 2, phrase_text(PHRASE_SALT_SOURCES));
    sheet_list(sheet, false);
    for (uint32_t i = 0; i < salts->count; i++) {
        struct text source = library_text(salts->at[i].food.library, salts->at[i].food.food->source);
        struct text spoon = spoon_source(&salts->at[i]), figures = source.length ? source : phrase_text(PHRASE_SALT_NO_SOURCE);
        sheet_item(sheet, spoon.length ? sheet_say(sheet, PHRASE_SALT_SOURCES_BOTH, salts->at[i].name, sheet_source(sheet, figures, false), sheet_source(sheet, spoon, false))
                                       : sheet_say(sheet, PHRASE_SALT_SOURCE, salts->at[i].name, sheet_source(sheet, figures, false)));
    }
    sheet_list_end(sheet);
}

static void tell(const struct salts *salts, struct sheet *sheet, const struct told_cautions *cautions)
{
    struct text name = page_name(&salts->page, salts->traced), unit = page_unit(&salts->page, salts->traced);
    sheet_begin(sheet, phrase_text(PHRASE_SALT_TITLE));
    sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_SALT_LEAD, name, unit));
    tell_table(salts, sheet, false);
    sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_SALT_HOW, phrase_text(spoons[SPOONS - 1].words)));
    tell_hazards(salts, sheet);
    told_cautions_tell(cautions, sheet);
    tell_sources(salts, sheet);
    sheet_end(sheet);
}

/* ---- for programs ---------------------------------------------------------------------------------------------- */

static void add_known(struct showing *showing, cJSON *object, const char *key, struct range amount, bool known)
{
    if (known)
        json_range(showing, object, key, amount, true);
    else
        json_kept(showing, cJSON_AddNullToObject(object, key));
}

static void add_nutrient(const struct salts *salts, cJSON *amounts, uint32_t nutrient, struct range amount, bool known)
{
    char key[KEY_BYTES];
    struct text name = json_column_key(salts->page.library, nutrient);
    snprintf(key, sizeof key, "%.*s", (int)name.length, name.bytes);
    add_known(salts->showing, amounts, key, amount, known);
}

static void add_measure(const struct salts *salts, cJSON *list, const struct salt *salt, uint32_t number)
{
    struct showing *showing = salts->showing;
    cJSON *one = json_kept(showing, cJSON_CreateObject());
    cJSON_AddItemToArray(list, one);
    json_text(showing, one, "measure", phrase_text(spoons[number].words));
    add_known(showing, one, "grams", salt->grams[number], salt->weighed[number]);
    cJSON *amounts = json_kept(showing, cJSON_AddObjectToObject(one, "amounts"));
    add_nutrient(salts, amounts, salts->traced, salt->holds[number], salt->weighed[number] && salt->known);
    if (salts->other != NONE_INDEX)
        add_nutrient(salts, amounts, salts->other, salt->other[number], salt->weighed[number] && salt->other_known);
}

static void tell_json(const struct salts *salts, const struct told_cautions *cautions)
{
    struct showing *showing = salts->showing;
    cJSON *whole = json_kept(showing, cJSON_CreateObject());
    json_text(showing, whole, "quern", text_of(quern_version()));
    json_kept(showing, cJSON_AddNumberToObject(whole, "schema", JSON_VERSION));
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(whole, "foods"));
    for (uint32_t i = 0; i < salts->count; i++) {
        const struct salt *salt = &salts->at[i];
        cJSON *food = json_kept(showing, cJSON_CreateObject());
        cJSON_AddItemToArray(list, food);
        json_text(showing, food, "name", salt->name);
        json_text(showing, food, "group", salt->group);
        if (salt->hazard.length)
            json_text(showing, food, "hazard", salt->hazard);
        json_text(showing, food, "source", library_text(salt->food.library, salt->food.food->source));
        json_text(showing, food, "spoon_source", spoon_source(salt));
        cJSON *measures = json_kept(showing, cJSON_AddArrayToObject(food, "measures"));
        for (uint32_t j = 0; j < SPOONS; j++)
            add_measure(salts, measures, salt, j);
    }
    cJSON *list_of_cautions = json_kept(showing, cJSON_AddArrayToObject(whole, "cautions"));
    for (uint32_t i = 0; i < cautions->count; i++) {
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "words", cautions->at[i].words);
        cJSON_AddItemToArray(list_of_cautions, one);
    }
    json_print(showing, showing->writer, whole);
    writer_add(showing->writer, text_of("\n"));
}

enum status telling_salts(struct telling *telling, struct kitchen *kitchen)
{
    struct showing showing = { .kitchen = kitchen, .writer = &telling->writer };
    struct salts salts = { .page = { .showing = &showing, .kitchen = kitchen, .library = kitchen->library },
                           .showing = &showing, .traced = kitchen->library->traced };
    struct sheet sheet;
    salts.other = kitchen->cautions ? kitchen->cautions->compare_under : NONE_INDEX;
    if (salts.traced == NONE_INDEX)
        return telling_fail(telling, STATUS_USAGE, "the library keeps account of no nutrient by where it comes from", NULL);
    bool good = gather(&salts, telling->allocator);
    sheet_open(&sheet, sheet_look(telling->form), &telling->writer, telling->allocator);
    struct told_cautions cautions = { .arena = &sheet.arena };
    gather_cautions(&salts, &cautions);
    if (good && telling->form == QUERN_AS_JSON)
        tell_json(&salts, &cautions);
    else if (good)
        tell(&salts, &sheet, &cautions);
    sheet_close(&sheet);
    telling->allocator.resize(telling->allocator.context, salts.at, 0);
    return good ? STATUS_OK : telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL);
}
