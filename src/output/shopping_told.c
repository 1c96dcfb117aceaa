/* The shopping list for people and programs, by aisle. */
#include <math.h>

#include "output/class.h"
#include "output/json.h"
#include "output/told.h"

static const struct library *library_of(const struct shopping *shopping)
{
    return shopping->showing->kitchen->library;
}

/* The name of an aisle: a group of the library, or packets that are in none. */
static struct text aisle_name(const struct ware *ware)
{
    const struct library *owner = ware->food.library;
    if (ware->aisle == NONE_INDEX)
        return phrase_text(PHRASE_SHOP_PACKETS);
    while (ware->aisle < owner->group_first)
        owner = owner->base;
    return library_text(owner, library_group_at(owner, ware->aisle)->name);
}

static struct text ware_name(const struct ware *ware)
{
    return library_text(ware->food.library, ware->food.food->name);
}

static struct text count_text(struct sheet *sheet, double count)
{
    return sheet_print(sheet, "%.10g", count);
}

static struct text unit_name(const struct shopping *shopping, const struct unit *unit)
{
    const struct library *owner = library_of(shopping);
    while (owner && (unit < owner->units || unit >= owner->units + owner->units_count))
        owner = owner->base;
    return owner ? library_text(owner, unit->name) : text_of("");
}

/* ---- what is bought -------------------------------------------------------------------------------------------- */

/* Packages as recipes name them; what else is needed of the food comes out of the first kind. */
static double package_number(const struct ware *ware, uint32_t number)
{
    const struct ware_package *package = &ware->packages[number];
    double needed = package->number + (number == 0 ? ware->loose / package->grams : 0);
    return ceil(needed - 1e-6);
}

static struct text packages_text(const struct shopping *shopping, const struct ware *ware, double count)
{
    struct sheet *sheet = shopping->sheet;
    struct text words = { "", 0 };
    const struct food *food = ware->food.food;
    const struct portion *portion = ware_package_portion(library_of(shopping), ware->food);
    if (food->basis == FOOD_PER_SERVING)
        return sheet_say(sheet, count > 1 ? PHRASE_SHOP_PACKETS_OF : PHRASE_SHOP_PACKET_OF, count_text(sheet, count), sheet_print(sheet, "%.4g", food->servings.best));
    if (!ware->package_count)
        return sheet_say(sheet, PHRASE_SHOP_PACKAGES, count_text(sheet, count), library_text(ware->food.library, portion->unit), cook_grams(sheet, portion->grams.best));
    for (uint32_t i = 0; i < ware->package_count; i++) {
        struct text one = sheet_say(sheet, PHRASE_SHOP_PACKAGES, count_text(sheet, package_number(ware, i)), unit_name(shopping, ware->packages[i].unit),
                                    cook_grams(sheet, ware->packages[i].grams));
        words = words.length ? sheet_say(sheet, PHRASE_SHOP_AND, words, one) : one;
    }
    return words;
}

static struct text weight_text(const struct shopping *shopping, double grams)
{
    struct text pounds = cook_pounds(shopping->sheet, library_of(shopping), grams), weight = cook_grams(shopping->sheet, grams);
    return pounds.length ? sheet_say(shopping->sheet, PHRASE_SHOP_WEIGHT, pounds, weight) : weight;
}

static struct text volume_text(const struct shopping *shopping, double ml)
{
    struct text cups = cook_volume(shopping->sheet, library_of(shopping), ml), metric = cook_millilitres(shopping->sheet, ml);
    return cups.length ? sheet_say(shopping->sheet, PHRASE_SHOP_WEIGHT, cups, metric) : metric;
}

static struct text pieces_text(const struct shopping *shopping, const struct ware *ware)
{
    struct sheet *sheet = shopping->sheet;
    struct text words = { "", 0 };
    for (uint32_t i = 0; i < ware->piece_count; i++) {
        const struct ware_piece *piece = &ware->pieces[i];
        struct text one = count_text(sheet, ware_whole(piece->number));
        one = piece->words.length ? sheet_say(sheet, PHRASE_SHOP_PIECES, one, piece->words) : one;
        words = words.length ? sheet_say(sheet, PHRASE_SHOP_AND, words, one) : one;
    }
    return words;
}

static struct text buy_text(const struct shopping *shopping, const struct ware *ware)
{
    double count;
    switch (ware_buying(ware, &count)) {
    case BUY_PACKAGES: return packages_text(shopping, ware, count);
    case BUY_PIECES: return pieces_text(shopping, ware);
    case BUY_VOLUME: return volume_text(shopping, ware->ml);
    case BUY_WEIGHT: return weight_text(shopping, ware->bought);
    case BUY_SERVINGS: return sheet_say(shopping->sheet, PHRASE_SHOP_SERVINGS, sheet_print(shopping->sheet, "%.3g", ware->servings));
    default: return phrase_text(PHRASE_COOK_SOME);
    }
}

/* How much of it the recipes use, and what of the weight nobody eats. */
static struct text used_text(const struct shopping *shopping, const struct ware *ware)
{
    double count;
    struct text used = ware->measured && ware->weight_known ? sheet_say(shopping->sheet, PHRASE_COOK_ABOUT, cook_grams(shopping->sheet, ware->grams.best)) : text_of("");
    if (!used.length && ware->measured && ware->by_volume && ware->ml > 0)
        used = cook_millilitres(shopping->sheet, ware->ml);
    double refuse = ware->bought > 0 ? 1 - ware->grams.best / ware->bought : 0;
    if (ware_buying(ware, &count) != BUY_WEIGHT || refuse < 0.005)
        return used;
    return sheet_say(shopping->sheet, PHRASE_SHOP_REFUSE, used, sheet_fixed(shopping->sheet, 0, refuse * 100));
}

/* ---- for people ------------------------------------------------------------------------------------------------ */

static void tell_cooked(const struct shopping *shopping)
{
    struct sheet *sheet = shopping->sheet;
    sheet_heading(sheet, 2, phrase_text(PHRASE_SHOP_FOR));
    sheet_list(sheet, false);
    for (uint32_t i = 0; i < shopping->cooked_count; i++) {
        const struct recipe *recipe = shopping->cooked[i].recipe;
        struct text times = sheet_print(sheet, "%.4g", shopping->cooked[i].batches);
        if (recipe->serves.high > 0)
            sheet_item(sheet, sheet_say(sheet, PHRASE_SHOP_FOR_SERVINGS, recipe->name, sheet_print(sheet, "%.4g", recipe->serves.best * shopping->cooked[i].batches)));
        else if (shopping->cooked[i].batches == 1)
            sheet_item(sheet, recipe->name);
        else
            sheet_item(sheet, sheet_say(sheet, PHRASE_SHOP_FOR_TIMES, recipe->name, times));
    }
    sheet_list_end(sheet);
}

static bool is_listed(const struct ware *ware)
{
    return !library_is_used(ware->food, GROUP_AT_HAND);
}

/* One table; an aisle is a row above its foods. */
static void tell_aisles(const struct shopping *shopping)
{
    struct sheet *sheet = shopping->sheet;
    const struct sheet_column columns[] = { { phrase_text(PHRASE_SHOP_FOOD), false }, { phrase_text(PHRASE_SHOP_BUY), false }, { phrase_text(PHRASE_SHOP_USED), false } };
    const struct ware *before = NULL;
    sheet_heading(sheet, 2, phrase_text(PHRASE_SHOP_LIST));
    sheet_table(sheet, text_of(""), columns, COUNT_OF(columns));
    for (uint32_t i = 0; i < shopping->ware_count; i++) {
        const struct ware *ware = &shopping->wares[i];
        struct sheet_cell cells[] = { cell_words(ware_name(ware)), cell_words(buy_text(shopping, ware)), cell_words(used_text(shopping, ware)) };
        const struct sheet_cell aisle[] = { cell_words(aisle_name(ware)), cell_words(text_of("")), cell_words(text_of("")) };
        if (!is_listed(ware))
            continue;
        if (!before || before->aisle != ware->aisle)
            sheet_row(sheet, aisle);
        before = ware;
        cells[0].depth = 1;
        sheet_row(sheet, cells);
    }
    sheet_table_end(sheet);
}

static void tell_at_hand(const struct shopping *shopping)
{
    struct text words = { "", 0 };
    for (uint32_t i = 0; i < shopping->ware_count; i++) {
        if (is_listed(&shopping->wares[i]))
            continue;
        struct text name = ware_name(&shopping->wares[i]);
        words = words.length ? sheet_say(shopping->sheet, PHRASE_SHOP_AND, words, name) : name;
    }
    if (words.length)
        sheet_paragraph(shopping->sheet, MANNER_PLAIN, sheet_say(shopping->sheet, PHRASE_SHOP_AT_HAND, words));
}

static void tell_unsummed(const struct shopping *shopping)
{
    struct sheet *sheet = shopping->sheet;
    if (!shopping->unsummed_count)
        return;
    sheet_heading(sheet, 2, phrase_text(PHRASE_SHOP_UNSUMMED));
    sheet_list(sheet, false);
    for (uint32_t i = 0; i < shopping->unsummed_count; i++)
        sheet_item(sheet, sheet_say(sheet, PHRASE_SHOP_UNSUMMED_LINE, shopping->unsummed[i].words, shopping->unsummed[i].recipe->name));
    sheet_list_end(sheet);
}

static void tell_made(const struct shopping *shopping)
{
    struct sheet *sheet = shopping->sheet;
    if (!shopping->made_count)
        return;
    sheet_heading(sheet, 2, phrase_text(PHRASE_SHOP_MADE));
    sheet_paragraph(sheet, MANNER_PLAIN, phrase_text(PHRASE_SHOP_MADE_HOW));
    sheet_list(sheet, false);
    for (uint32_t i = 0; i < shopping->made_count; i++)
        sheet_item(sheet, sheet_say(sheet, PHRASE_SHOP_FOR_TIMES, shopping->made[i].recipe->name, sheet_print(sheet, "%.3g", shopping->made[i].batches)));
    sheet_list_end(sheet);
}

/* What foods on the list call for, each once: they are bought before anybody reads the recipe. */
static struct told_cautions gather_cautions(const struct shopping *shopping)
{
    struct told_cautions cautions = { .arena = &shopping->sheet->arena };
    const struct kitchen *kitchen = shopping->showing->kitchen;
    for (uint32_t i = 0; i < shopping->ware_count; i++) {
        if (is_listed(&shopping->wares[i]))
            cautions_of_food(kitchen->library, kitchen->cautions, kitchen->cautions_owner, shopping->wares[i].food, told_cautions_add, &cautions);
    }
    return cautions;
}

void shopping_tell(const struct shopping *shopping)
{
    sheet_begin(shopping->sheet, phrase_text(PHRASE_SHOP_TITLE));
    tell_cooked(shopping);
    tell_aisles(shopping);
    tell_unsummed(shopping);
    tell_at_hand(shopping);
    tell_made(shopping);
    sheet_heading(shopping->sheet, 2, phrase_text(PHRASE_HAND_CAUTIONS));
    struct told_cautions cautions = gather_cautions(shopping);
    for (uint32_t i = 0; i < cautions.count; i++)
        sheet_paragraph(shopping->sheet, MANNER_CAUTION, sheet_say(shopping->sheet, PHRASE_CAUTION_BECAUSE, cautions.at[i].words, cautions.at[i].because));
    sheet_paragraph(shopping->sheet, MANNER_CAUTION, phrase_text(PHRASE_SHOP_CAUTION));
    sheet_end(shopping->sheet);
}

/* ---- for programs ---------------------------------------------------------------------------------------------- */

static cJSON *add_object(struct showing *showing, cJSON *list)
{
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    cJSON_AddItemToArray(list, object);
    return object;
}

static void add_number(struct showing *showing, cJSON *object, const char *key, double number)
{
    json_kept(showing, cJSON_AddNumberToObject(object, key, number));
}

static void add_package(const struct shopping *shopping, cJSON *list, struct text words, double count, double grams, double servings)
{
    cJSON *one = add_object(shopping->showing, list);
    json_text(shopping->showing, one, "package", words);
    add_number(shopping->showing, one, "count", count);
    if (grams > 0)
        add_number(shopping->showing, one, "grams", grams);
    else
        json_kept(shopping->showing, cJSON_AddNullToObject(one, "grams"));
    if (servings > 0)
        add_number(shopping->showing, one, "servings", servings);
    else
        json_kept(shopping->showing, cJSON_AddNullToObject(one, "servings"));
}

static void add_packages(const struct shopping *shopping, cJSON *object, const struct ware *ware, double count)
{
    const struct food *food = ware->food.food;
    cJSON *list = json_kept(shopping->showing, cJSON_AddArrayToObject(object, "packages"));
    const struct portion *portion = ware_package_portion(library_of(shopping), ware->food);
    if (food->basis == FOOD_PER_SERVING)
        add_package(shopping, list, text_of("packet"), count, 0, food->servings.best);
    else if (!ware->package_count)
        add_package(shopping, list, library_text(ware->food.library, portion->unit), count, portion->grams.best, 0);
    for (uint32_t i = 0; i < ware->package_count && food->basis != FOOD_PER_SERVING; i++)
        add_package(shopping, list, unit_name(shopping, ware->packages[i].unit), package_number(ware, i), ware->packages[i].grams, 0);
}

/* One kind of pieces stands by itself; several in a list. */
static void add_pieces(const struct shopping *shopping, cJSON *object, const struct ware *ware)
{
    json_text(shopping->showing, object, "piece", ware->piece_count == 1 ? ware->pieces[0].words : text_of(""));
    if (ware->piece_count == 1)
        return;
    cJSON *list = json_kept(shopping->showing, cJSON_AddArrayToObject(object, "kinds"));
    for (uint32_t i = 0; i < ware->piece_count; i++) {
        cJSON *one = add_object(shopping->showing, list);
        json_text(shopping->showing, one, "piece", ware->pieces[i].words);
        add_number(shopping->showing, one, "pieces", ware_whole(ware->pieces[i].number));
    }
}

static void add_ware(const struct shopping *shopping, cJSON *list, const struct ware *ware)
{
    static const char *const kinds[] = { "packages", "pieces", "volume", "weight", "servings", "a little" };
    struct showing *showing = shopping->showing;
    double count;
    enum buying buying = ware_buying(ware, &count);
    cJSON *food = add_object(showing, list);
    json_text(showing, food, "name", ware_name(ware));
    json_text(showing, food, "aisle", aisle_name(ware));
    json_text(showing, food, "buy", text_of(kinds[buying]));
    if (buying == BUY_PACKAGES)
        add_packages(shopping, food, ware, count);
    if (buying == BUY_PIECES)
        add_number(showing, food, "pieces", count);
    if (buying == BUY_PIECES)
        add_pieces(shopping, food, ware);
    if (buying == BUY_VOLUME)
        add_number(showing, food, "ml", ware->ml);
    if (buying == BUY_SERVINGS)
        add_number(showing, food, "servings", ware->servings);
    if (ware->measured && ware->weight_known) {
        json_range(showing, food, "grams", ware->grams, true);
        add_number(showing, food, "grams_as_bought", ware->bought);
    } else {
        json_kept(showing, cJSON_AddNullToObject(food, "grams"));
        json_kept(showing, cJSON_AddNullToObject(food, "grams_as_bought"));
    }
}

static void add_recipes(const struct shopping *shopping, cJSON *whole, const char *key, const struct made *made, uint32_t count)
{
    cJSON *list = json_kept(shopping->showing, cJSON_AddArrayToObject(whole, key));
    for (uint32_t i = 0; i < count; i++) {
        cJSON *one = add_object(shopping->showing, list);
        json_text(shopping->showing, one, "name", made[i].recipe->name);
        add_number(shopping->showing, one, "times", made[i].batches);
    }
}

void shopping_tell_json(const struct shopping *shopping)
{
    struct showing *showing = shopping->showing;
    cJSON *whole = json_kept(showing, cJSON_CreateObject());
    json_text(showing, whole, "quern", text_of(quern_version()));
    add_number(showing, whole, "schema", JSON_VERSION);
    add_recipes(shopping, whole, "for", shopping->cooked, shopping->cooked_count);
    cJSON *foods = json_kept(showing, cJSON_AddArrayToObject(whole, "foods"));
    for (uint32_t i = 0; i < shopping->ware_count; i++) {
        if (is_listed(&shopping->wares[i]))
            add_ware(shopping, foods, &shopping->wares[i]);
    }
    cJSON *unsummed = json_kept(showing, cJSON_AddArrayToObject(whole, "as_written"));
    for (uint32_t i = 0; i < shopping->unsummed_count; i++) {
        cJSON *one = add_object(showing, unsummed);
        json_text(showing, one, "words", shopping->unsummed[i].words);
        json_text(showing, one, "recipe", shopping->unsummed[i].recipe->name);
    }
    add_recipes(shopping, whole, "made", shopping->made, shopping->made_count);
    struct told_cautions cautions = gather_cautions(shopping);
    json_told_cautions(showing, whole, &cautions);
    json_print(showing, showing->writer, whole);
    writer_add(showing->writer, text_of("\n"));
}
