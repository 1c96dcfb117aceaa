/* How much a recipe makes: servings, yields, portions of its own. */
#include "model/collect.h"

static bool is_once(struct gathering *gathering, const struct node *node, bool *said)
{
    if (*said)
        finding_add(&gathering->findings, FINDING_REPEATED_STATEMENT, collect_place(gathering, node->keyword),
                    GAPS(text_of(collect_node_word(node->kind))));
    bool first = !*said;
    *said = true;
    return first;
}

static bool is_positive(struct gathering *gathering, const struct node *node)
{
    bool good = (node->quantity.kind == QUANTITY_NUMBER || node->quantity.kind == QUANTITY_RANGE)
             && node->quantity.low > 0 && !node->quantity.is_percent;
    if (!good && node->quantity.kind != QUANTITY_BAD)
        finding_add(&gathering->findings, FINDING_BAD_SERVINGS, collect_place(gathering, node->quantity.span), NO_GAPS);
    return good;
}

static const struct yields nothing_said;

const struct yields *collect_no_yields(void)
{
    return &nothing_said;
}

static void set_yields(struct collecting *collecting, const struct yields *yields)
{
    struct gathering *gathering = collecting->gathering;
    struct yields *kept = arena_take(&gathering->arena, sizeof *kept);
    if (!kept)
        return;
    *kept = *yields;
    collect_recipe_of(collecting)->yields = kept;
}

/* The amount with its unit in grams or millilitres; false when the unit is neither. */
static bool read_measure(struct gathering *gathering, double low, double high, struct text unit_words,
                         struct range *grams, struct range *ml)
{
    char key[KEY_BYTES];
    const struct unit *unit = library_unit(gathering->kitchen->stdlib,
                                           (struct text){ key, name_key_of(unit_words, false, key) }, NULL);
    if (!unit || (unit->dimension != DIMENSION_MASS && unit->dimension != DIMENSION_VOLUME))
        return false;
    struct range amount = range_multiply(range_between(low, high), unit->factor);
    *(unit->dimension == DIMENSION_MASS ? grams : ml) = amount;
    return true;
}

/* The item behind the leading words. */
static const struct item *behind_words(const struct item *first)
{
    while (first && first->kind == ITEM_WORD)
        first = first->next;
    return first;
}

static struct text words_text(struct gathering *gathering, const struct item *first)
{
    const struct item *last = first;
    if (!first)
        return (struct text){ "", 0 };
    while (last->next && last->next->kind == ITEM_WORD)
        last = last->next;
    return collect_written(gathering, (struct span){ first->span.start, last->span.end });
}

/* `serves 4 people`: only the number counts. */
static bool names_eaters(struct gathering *gathering, const struct item *item)
{
    static const char *const words[] = { "people", "persons", "person", "servings", "serving", "portions" };
    for (uint32_t i = 0; item && i < COUNT_OF(words); i++) {
        if (text_is(collect_written(gathering, item->span), words[i]))
            return true;
    }
    return false;
}

/* `of 1 1/2 cups`. */
static void take_serving_size(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    const struct item *of = names_eaters(gathering, node->unit.first) ? node->unit.first->next : node->unit.first;
    const struct item *number = of ? of->next : NULL;
    struct yields yields = *collect_recipe_of(collecting)->yields;
    if (!of)
        return;
    bool good = text_is(collect_written(gathering, of->span), "of") && number && number->next
             && (number->kind == ITEM_NUMBER || number->kind == ITEM_RANGE) && number->quantity->low > 0;
    struct text unit = good ? words_text(gathering, number->next) : text_of("");
    if (good && read_measure(gathering, number->quantity->low, number->quantity->high, unit, &yields.serving_grams,
                             &yields.serving_ml)) {
        set_yields(collecting, &yields);
        return;
    }
    finding_add(&gathering->findings, FINDING_SERVING_SIZE, collect_place(gathering, of->span), NO_GAPS);
    collect_broken_line(collecting, of->span);
}

void collect_serves(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    if (!is_once(gathering, node, &collecting->said_serves) || !is_positive(gathering, node))
        return;
    collect_recipe_of(collecting)->serves = range_between(node->quantity.low, node->quantity.high);
    collect_recipe_of(collecting)->pieces = (struct text){ NULL, 0 };
    take_serving_size(collecting, node);
}

/* Where nothing else is said a serving is one of several pieces. */
static void serve_pieces(struct collecting *collecting, const struct node *node, struct text word)
{
    struct recipe *recipe = collect_recipe_of(collecting);
    if (recipe->serves.high > 0 || node->quantity.low <= 1)
        return;
    recipe->serves = range_between(node->quantity.low, node->quantity.high);
    recipe->pieces = collect_keep(collecting->gathering, word);
}

/* `makes 900 g`, `makes 6 cups`, `makes 12 muffins`: pieces become portions of the batch. */
void collect_makes(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct text unit = words_text(gathering, node->unit.first);
    struct yields yields = *collect_recipe_of(collecting)->yields;
    char key[KEY_BYTES];
    if (!is_once(gathering, node, &collecting->said_makes) || !is_positive(gathering, node))
        return;
    collect_reject(collecting, behind_words(node->unit.first));
    if (read_measure(gathering, node->quantity.low, node->quantity.high, unit, &yields.makes_grams, &yields.makes_ml)) {
        set_yields(collecting, &yields);
        return;
    }
    uint32_t length = name_key_of(unit, false, key);
    struct recipe_portion *portion = length ? ADD_RECORD(gathering, portions) : NULL;
    if (!portion) {
        finding_add(&gathering->findings, FINDING_SERVING_SIZE, collect_place(gathering, node->quantity.span), NO_GAPS);
        return;
    }
    portion->key = collect_keep(gathering, (struct text){ key, length });
    serve_pieces(collecting, node, unit);
    portion->batch = range_of(1 / node->quantity.high, 2 / (node->quantity.low + node->quantity.high), 1 / node->quantity.low);
}

/* `1 slice = 1/16`, `1 slice = 45 g`. */
void collect_portion(struct collecting *collecting, const struct node *node)
{
    struct gathering *gathering = collecting->gathering;
    struct text unit = words_text(gathering, node->unit.first);
    struct range grams = range_exact(0), ml = range_exact(0), batch = range_exact(0);
    char key[KEY_BYTES];
    uint32_t length = name_key_of(words_text(gathering, node->items.first), false, key);
    double low = node->second.low / node->quantity.high, high = node->second.high / node->quantity.low;
    bool good = length > 0 && node->quantity.low > 0 && node->second.low > 0;
    if (good && unit.length)
        good = read_measure(gathering, low, high, unit, &grams, &ml) && grams.high > 0;
    else
        batch = range_between(low, high);
    collect_reject(collecting, behind_words(node->unit.first));
    if (!good) {
        finding_add(&gathering->findings, FINDING_SERVING_SIZE, collect_place(gathering, node->span), NO_GAPS);
        return;
    }
    struct recipe_portion *portion = ADD_RECORD(gathering, portions);
    if (portion)
        *portion = (struct recipe_portion){ collect_keep(gathering, (struct text){ key, length }), batch, grams };
}
