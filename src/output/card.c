/* The card of a food for people: all that the library says of it, part by part. A new part is a function here and a
 * line in `parts`. */
#include "output/lookup.h"

struct card {
    const struct lookup *lookup;
    const struct library *library;
    struct writer *writer;
    struct food_at food;
};

static void print_range(struct card *card, struct range amount)
{
    writer_print(card->writer, "%.6g", amount.best);
    if (!range_is_exact(amount))
        writer_print(card->writer, " (%.6g to %.6g)", amount.low, amount.high);
}

/* An amount with its unit behind the best value: `278 mg (250 to 300)`. */
static void print_amount_of(struct card *card, uint32_t column, struct text unit)
{
    struct range amount;
    if (!lookup_amount(card->food, NULL, column, &amount)) {
        writer_print(card->writer, "unknown");
        return;
    }
    writer_print(card->writer, "%.6g %.*s", amount.best, (int)unit.length, unit.bytes);
    if (!range_is_exact(amount))
        writer_print(card->writer, " (%.6g to %.6g)", amount.low, amount.high);
}

static struct text text_at(const struct card *card, struct pack_text text)
{
    return library_text(card->food.library, text);
}

/* ---- what it is -------------------------------------------------------------------------------------------------- */

static void print_aliases(struct card *card)
{
    const struct library *library = card->food.library;
    uint32_t index = (uint32_t)(card->food.food - library->foods);
    bool head = false;
    for (uint32_t i = 0; i < library->names_count; i++) {
        const struct name *name = &library->names[i];
        struct text written = library_text(library, name->written);
        if (name->space != SPACE_FOOD || name->index != index || text_equal(written, text_at(card, card->food.food->name)))
            continue;
        writer_print(card->writer, head ? ", " : "also: ");
        writer_visible(card->writer, written);
        head = true;
    }
    writer_print(card->writer, "%s", head ? "\n" : "");
}

static void print_name(struct card *card)
{
    struct text name = lookup_name(card->library, card->food, card->lookup->words), group = lookup_group(card->library, card->food);
    writer_visible(card->writer, name);
    writer_print(card->writer, "\n");
    print_aliases(card);
    if (group.length == 0)
        return;
    writer_print(card->writer, "group: ");
    writer_visible(card->writer, group);
    writer_print(card->writer, "\n");
}

static void print_basis(struct card *card)
{
    static const char *const states[] = { "", "figures are for the whole can, liquid and all\n",
                                          "figures are for the drained food\n",
                                          "the source does not say whether figures are for the whole can or drained\n" };
    writer_print(card->writer, "%s", states[card->food.food->state]);
}

static void print_hazard(struct card *card)
{
    struct text source, hazard = library_hazard(card->food, &source);
    if (!hazard.length)
        return;
    writer_print(card->writer, "danger: ");
    writer_visible(card->writer, hazard);
    writer_print(card->writer, "\n");
}

/* The kind with less salt on the same shelf, with how much it holds. */
static void print_milder(struct card *card)
{
    char figure[64];
    const struct library *owner;
    struct text name = text_at(card, card->food.food->milder);
    if (name.length == 0)
        return;
    struct food_at milder = lookup_named(card->library, name);
    writer_print(card->writer, "milder kind: ");
    writer_visible(card->writer, name);
    if (milder.food && card->library->traced != NONE_INDEX) {
        const struct nutrient *traced = library_nutrient_at(card->library, card->library->traced, &owner);
        struct text of = library_text(owner, traced->name), unit = library_text(owner, traced->unit);
        struct range amount;
        bool known = lookup_amount(milder, NULL, card->library->traced, &amount);
        lookup_figure(figure, sizeof figure, amount, known);
        writer_print(card->writer, " (%.*s %s%s%.*s per 100 g)", (int)of.length, of.bytes, figure, known ? " " : "",
                     known ? (int)unit.length : 0, unit.bytes);
    }
    writer_print(card->writer, "\n");
}

/* ---- figures ----------------------------------------------------------------------------------------------------- */

static void print_portions(struct card *card)
{
    const struct food *food = card->food.food;
    writer_print(card->writer, food->portion_count ? "\nportions\n" : "\nno portion is known\n");
    for (uint32_t i = 0; i < food->portion_count; i++) {
        const struct portion *portion = &card->food.library->portions[food->first_portion + i];
        char words[KEY_BYTES];
        lookup_portion_words(card->food, portion, words, sizeof words);
        writer_print(card->writer, "  ");
        writer_visible(card->writer, text_of(words));
        writer_print(card->writer, " = %.6g g", portion->grams.best);
        if (!range_is_exact(portion->grams))
            writer_print(card->writer, " (%.6g to %.6g)", portion->grams.low, portion->grams.high);
        if (portion->source.length) {
            writer_print(card->writer, "  ");
            writer_visible(card->writer, text_at(card, portion->source));
        }
        writer_print(card->writer, "\n");
    }
}

static void print_nutrients(struct card *card)
{
    writer_print(card->writer, "\nper 100 g\n");
    for (uint32_t i = 0; i < card->library->nutrient_total; i++) {
        const struct library *owner;
        const struct nutrient *nutrient = library_nutrient_at(card->library, i, &owner);
        struct text name = library_text(owner, nutrient->name);
        writer_print(card->writer, "  %-20.*s ", (int)name.length, name.bytes);
        print_amount_of(card, i, library_text(owner, nutrient->unit));
        writer_print(card->writer, "\n");
    }
}

static void print_refuse(struct card *card)
{
    static const char *const kinds[REFUSE_KINDS] = { "", "; any weight holds it", "; a weight may hold it", "; a weight seldom holds it", "; cooks may eat it" };
    const struct food *food = card->food.food;
    struct text what = library_text(card->food.library, food->refuse_what);
    struct range refuse = food->refuse;
    if (refuse.high <= 0)
        return;
    writer_print(card->writer, "  as bought, %.3g%% of it", refuse.best * 100);
    if (!range_is_exact(refuse))
        writer_print(card->writer, " (%.3g%% to %.3g%%)", refuse.low * 100, refuse.high * 100);
    what = what.length ? what : text_of("bone, peel, stone or the like");
    writer_print(card->writer, " is %.*s%s\n", (int)what.length, what.bytes, kinds[food->refuse_kind]);
}

/* How samples differed, as the source tells it, and what --variation makes of it. */
static void print_spreads(struct card *card)
{
    const struct food *food = card->food.food;
    if (food->spread_count)
        writer_print(card->writer, "\nhow samples differed, per 100 g\n");
    for (uint32_t i = 0; i < food->spread_count; i++) {
        const struct spread *spread = &card->food.library->spreads[food->first_spread + i];
        const struct library *owner;
        const struct nutrient *nutrient = library_nutrient_at(card->library, spread->nutrient, &owner);
        struct text name = library_text(owner, nutrient->name), unit = library_text(owner, nutrient->unit);
        const struct range *varied = card->food.library->values + food->varied + spread->nutrient;
        writer_print(card->writer, "  %-20.*s %u sample%s", (int)name.length, name.bytes, spread->samples, spread->samples == 1 ? "" : "s");
        if (spread->error >= 0)
            writer_print(card->writer, ", standard error %.6g %.*s", spread->error, (int)unit.length, unit.bytes);
        if (spread->lowest >= 0 && spread->highest >= 0)
            writer_print(card->writer, ", seen from %.6g to %.6g %.*s", spread->lowest, spread->highest, (int)unit.length, unit.bytes);
        writer_print(card->writer, "; with --variation %.4g to %.4g %.*s\n", varied->low, varied->high, (int)unit.length, unit.bytes);
    }
}

/* Where the traced nutrient comes from: inherent and the rest. */
static void print_origins(struct card *card)
{
    static const char *const words[] = { "in it by nature", "put in by makers", "added by the cook", "cannot be told apart" };
    const struct library *owner;
    struct range amount;
    if (card->library->traced == NONE_INDEX || !lookup_amount(card->food, NULL, card->library->traced, &amount))
        return;
    const struct nutrient *traced = library_nutrient_at(card->library, card->library->traced, &owner);
    struct text name = library_text(owner, traced->name);
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        bool known = lookup_amount(card->food, NULL, card->library->origin_column + i, &amount);
        if (known && amount.high <= 0)
            continue;
        writer_print(card->writer, "  of the %.*s, %s: ", (int)name.length, name.bytes, words[i]);
        print_amount_of(card, card->library->origin_column + i, library_text(owner, traced->unit));
        writer_print(card->writer, "\n");
    }
}

static void print_density(struct card *card)
{
    if (card->food.food->density.high <= 0)
        return;
    writer_print(card->writer, "\ndensity: ");
    print_range(card, card->food.food->density);
    writer_print(card->writer, " g per ml\n");
}

/* ---- where it comes from and goes to ----------------------------------------------------------------------------- */

static void print_source(struct card *card)
{
    struct text source = text_at(card, card->food.food->source);
    writer_print(card->writer, "\nsource: ");
    writer_visible(card->writer, source);
    writer_print(card->writer, "\n");
}

static void print_uses(struct card *card)
{
    const struct lookup *lookup = card->lookup;
    if (!lookup->wanted->kitchen)
        return;
    writer_print(card->writer, lookup->use_count ? "\nused by %u %s in " : "\nused by no line in ", lookup->use_count,
                 lookup->use_count == 1 ? "line" : "lines");
    writer_visible(card->writer, text_of(lookup->wanted->kitchen));
    writer_print(card->writer, "\n");
    for (const struct use *use = lookup->uses; use; use = use->next) {
        writer_print(card->writer, "  ");
        writer_visible(card->writer, text_of(use->file));
        writer_print(card->writer, ":%u: ", use->line);
        writer_visible(card->writer, use->text);
        writer_print(card->writer, "  (\"");
        writer_visible(card->writer, use->recipe);
        writer_print(card->writer, "\")\n");
    }
    if (lookup->unknown_lines)
        writer_print(card->writer, "  the food of %u other %s there is not known; `quern check` says why\n", lookup->unknown_lines,
                     lookup->unknown_lines == 1 ? "line" : "lines");
}

static void (*const parts[])(struct card *card) = {
    print_name, print_hazard, print_basis, print_milder, print_portions, print_refuse, print_density, print_nutrients, print_origins, print_spreads, print_source,
    print_uses,
};

void card_print(const struct lookup *lookup, struct writer *writer)
{
    struct card card = { lookup, lookup->library, writer, lookup->card };
    for (size_t i = 0; i < COUNT_OF(parts); i++)
        parts[i](&card);
}
