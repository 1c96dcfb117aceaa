/* Elements, and compounds that are computed from them. A compound is a food: what it holds of the nutrients that
 * elements count as follows from its formula and its purity, all else is unknown unless it says so itself.
 *
 * Of what is not the compound nobody knows what it is. It may be none of a nutrient, or all of it. */
#include <string.h>

#include "library/formula.h"
#include "library/making.h"

#define HEAVIEST_ELEMENT 400.0

/* ---- elements ------------------------------------------------------------------------------------------------- */

/* A capital, and up to two small letters. */
static bool is_symbol(struct text symbol)
{
    bool good = symbol.length >= 1 && symbol.length <= 3 && symbol.bytes[0] >= 'A' && symbol.bytes[0] <= 'Z';
    for (uint32_t i = 1; i < symbol.length; i++)
        good = good && symbol.bytes[i] >= 'a' && symbol.bytes[i] <= 'z';
    return good;
}

static void read_symbol(struct builder *builder, const struct node *node, struct text *symbol)
{
    struct text written = build_items_text(builder, node->items.first->next);
    if (is_symbol(written) && node->quantity.kind == QUANTITY_NONE)
        *symbol = written;
    else
        finding_add(builder->findings, FINDING_BAD_SYMBOL, build_place(builder, node->span),
                    GAPS(build_written(builder, node->span)));
}

static void read_weight(struct builder *builder, const struct node *node, struct element *element)
{
    if (node->quantity.kind == QUANTITY_BAD || !build_only_amount(builder, node))
        return;
    bool good = node->quantity.kind == QUANTITY_NUMBER && !node->quantity.is_percent && node->quantity.low > 0
             && node->quantity.low <= HEAVIEST_ELEMENT && build_unit_text(builder, node->unit.first).length == 0;
    if (good)
        element->weight = node->quantity.low;
    else
        finding_add(builder->findings, FINDING_BAD_WEIGHT, build_place(builder, node->span),
                    GAPS(build_written(builder, node->span)));
}

/* `counts as sodium`: only what is weighed. */
static void read_counts_as(struct builder *builder, const struct node *node, struct element *element)
{
    struct text name = build_items_text(builder, node->items.first->next->next);
    build_only_words(builder, node);
    element->nutrient = build_known(builder, node, SPACE_NUTRIENT, name);
    if (element->nutrient == NONE_INDEX)
        return;
    struct text unit = build_nutrient_unit(builder, element->nutrient);
    const struct unit *found = build_unit(builder, unit);
    if (found && found->dimension == DIMENSION_MASS)
        return;
    finding_add(builder->findings, FINDING_WRONG_UNIT, build_place(builder, node->span), GAPS(unit, text_of("mass")));
    element->nutrient = NONE_INDEX;
}

static void read_element_statement(struct builder *builder, const struct node *node, struct element *element,
                                   struct text *symbol)
{
    char storage[128];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    if (node->kind == NODE_SOURCE)
        return;
    if (node->kind == NODE_KNOWLEDGE && text_starts(words, "symbol "))
        read_symbol(builder, node, symbol);
    else if (node->kind == NODE_KNOWLEDGE && text_is(words, "weight"))
        read_weight(builder, node, element);
    else if (node->kind == NODE_KNOWLEDGE && text_starts(words, "counts as "))
        read_counts_as(builder, node, element);
    else
        build_unknown_statement(builder, node, "declaration of an element");
}

static bool is_broken(const struct node *node)
{
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_BROKEN)
            return true;
    }
    return false;
}

void read_element(struct builder *builder, const struct node *node)
{
    struct element element = { .nutrient = NONE_INDEX };
    struct text symbol = { "", 0 }, name = build_items_text(builder, node->items.first->next);
    struct place place = making_head_place(builder, node);
    uint32_t before = builder->findings->count;
    for (const struct node *at = node->body; at; at = at->next)
        read_element_statement(builder, at, &element, &symbol);
    if (symbol.length == 0 || element.weight <= 0) {
        if (builder->findings->count == before && !is_broken(node))
            finding_add(builder->findings, FINDING_ELEMENT_LACKS, place, GAPS(name));
        return;
    }
    if (builder->base && library_element(builder->base, symbol)) {
        finding_add(builder->findings, FINDING_ELEMENT_OF_LIBRARY, place, GAPS(symbol));
        return;
    }
    uint32_t index = BUILD_ADD(builder, elements);
    if (index == NONE_INDEX)
        return;
    element.name = build_text(builder, name);
    element.symbol = build_text(builder, symbol);
    builder->elements[index] = element;
    build_name(builder, SPACE_ELEMENT, name, place, false, index);
    build_key(builder, SPACE_ELEMENT, symbol, symbol, place, index);
}

static const struct element *find_element(const void *context, struct text symbol)
{
    const struct builder *builder = context;
    uint32_t index = build_find_key(builder, SPACE_ELEMENT, symbol);
    if (index != NONE_INDEX)
        return &builder->elements[index];
    return builder->base ? library_element(builder->base, symbol) : NULL;
}

/* A bit for each nutrient that an element counts as. */
static uint64_t nutrients_of(const struct element *elements, uint32_t count)
{
    uint64_t nutrients = 0;
    for (uint32_t i = 0; i < count; i++)
        nutrients |= elements[i].nutrient == NONE_INDEX ? 0 : (uint64_t)1 << elements[i].nutrient;
    return nutrients;
}

static uint64_t counted_nutrients(const struct builder *builder)
{
    uint64_t nutrients = nutrients_of(builder->elements, builder->elements_count);
    for (const struct library *library = builder->base; library; library = library->base)
        nutrients |= nutrients_of(library->elements, library->elements_count);
    return nutrients;
}

/* ---- formula and purity ------------------------------------------------------------------------------------------ */

struct compound {
    struct builder *builder;
    struct formula formula;
    struct range purity;
    bool has_formula, has_purity;
    bool is_wrong;              /* a finding has spoken: nothing is computed */
};

/* All that is written behind `formula`; of a quoted one what stands between the quotes. */
static struct span formula_span(const struct builder *builder, const struct node *node)
{
    const struct item *first = node->items.first->next;
    if (first && first->kind == ITEM_STRING && !first->next && node->quantity.kind == QUANTITY_NONE && !node->phrases.first)
        return first->span;
    struct span span = { node->items.first->span.end, node->span.end };
    while (span.start < span.end && builder->declaration->text.bytes[span.start] == ' ')
        span.start++;
    return span;
}

static void tell_formula(struct builder *builder, struct span formula, enum formula_trouble trouble, struct span at)
{
    static const enum words_code codes[] = {
        [FORMULA_EMPTY] = FINDING_FORMULA_EMPTY, [FORMULA_UNKNOWN_ELEMENT] = FINDING_UNKNOWN_ELEMENT,
        [FORMULA_UNBALANCED] = FINDING_FORMULA_UNBALANCED, [FORMULA_BAD_NUMBER] = FINDING_FORMULA_NUMBER,
        [FORMULA_STRAY] = FINDING_FORMULA_SIGN, [FORMULA_TOO_DEEP] = FINDING_FORMULA_TOO_DEEP,
    };
    struct span span = { formula.start + at.start, formula.start + at.end };
    if (span.start == span.end)
        span = formula;
    finding_add(builder->findings, codes[trouble], build_place(builder, span), GAPS(build_written(builder, span)));
}

static void read_formula(struct compound *compound, const struct node *node)
{
    struct builder *builder = compound->builder;
    struct span span = formula_span(builder, node), at;
    compound->is_wrong = true;
    if (node->quantity.kind == QUANTITY_BAD)
        return;
    if (node->has_body) {
        build_unknown_statement(builder, node, "compound");
        return;
    }
    enum formula_trouble trouble = formula_read(build_written(builder, span), find_element, builder, &compound->formula, &at);
    compound->is_wrong = trouble != FORMULA_SOUND;
    if (compound->is_wrong)
        tell_formula(builder, span.start < span.end ? span : node->span, trouble, at);
}

static void read_purity(struct compound *compound, const struct node *node)
{
    struct builder *builder = compound->builder;
    const struct quantity *quantity = &node->quantity;
    bool number = quantity->kind == QUANTITY_NUMBER || quantity->kind == QUANTITY_RANGE;
    compound->is_wrong = true;
    if (quantity->kind == QUANTITY_BAD || !build_only_amount(builder, node))
        return;
    struct range purity = build_range(builder, quantity, node->unit.first, 1);
    if (number && quantity->is_percent && purity.low > 0 && purity.high <= 1
        && build_unit_text(builder, node->unit.first).length == 0) {
        compound->purity = purity;
        compound->is_wrong = false;
        return;
    }
    finding_add(builder->findings, FINDING_BAD_PURITY, build_place(builder, node->span), GAPS(build_written(builder, node->span)));
}

static bool begins(const struct builder *builder, const struct node *node, const char *word)
{
    return node->kind == NODE_KNOWLEDGE && node->items.first && text_is(build_written(builder, node->items.first->span), word);
}

static bool is_of_compound(const struct builder *builder, const struct node *node)
{
    return begins(builder, node, "formula") || begins(builder, node, "purity");
}

static void read_compound_statement(struct compound *compound, const struct node *node)
{
    bool is_formula = begins(compound->builder, node, "formula"), was_wrong = compound->is_wrong;
    bool *seen = is_formula ? &compound->has_formula : &compound->has_purity;
    if (!*seen && is_formula)
        read_formula(compound, node);
    else if (!*seen)
        read_purity(compound, node);
    *seen = true;
    compound->is_wrong = compound->is_wrong || was_wrong;
}

/* ---- compounds --------------------------------------------------------------------------------------------------- */

/* Low: the impurity holds none of it; high: the impurity is nothing else, and there is as much of it as there may be. */
static void compute(struct making *making, const struct compound *compound)
{
    uint64_t counted = counted_nutrients(making->builder);
    struct range purity = compound->purity;
    for (uint32_t i = 0; i < build_nutrient_total(making->builder); i++) {
        if (!(counted >> i & 1))
            continue;
        double share = compound->formula.counted[i] / compound->formula.mass;
        struct range amount = range_of(share * purity.low, share * purity.best, share * purity.low + (1 - purity.low));
        making_set_column(making, i, range_scale(amount, 100 / build_nutrient_at(making->builder, i)->unit_factor));
        making->computed |= (uint64_t)1 << i;
    }
}

struct place making_head_place(const struct builder *builder, const struct node *node)
{
    return build_place(builder, (struct span){ node->items.first->span.start, node->items.last->span.end });
}

void making_check_name(struct builder *builder, const struct node *node)
{
    if (node->quantity.kind == QUANTITY_NONE && !node->phrases.first)
        return;
    struct span span = node->quantity.kind != QUANTITY_NONE ? node->quantity.span : node->phrases.first->span;
    finding_add(builder->findings, FINDING_NAME_NOT_QUOTED, build_place(builder, span), GAPS(build_written(builder, span)));
}

void read_compound(struct builder *builder, const struct node *node)
{
    struct making making;
    struct compound compound = { .builder = builder, .purity = range_exact(1) };
    const struct item *name = node->items.first->next;
    if (!making_open(&making, builder, node, name))
        return;
    making_check_name(builder, node);
    for (const struct node *at = node->body; at; at = at->next) {
        if (is_of_compound(builder, at))
            read_compound_statement(&compound, at);
    }
    if (!compound.has_formula && !is_broken(node))
        finding_add(builder->findings, FINDING_MISSING_FORMULA, making_head_place(builder, node), GAPS(build_items_text(builder, name)));
    if (compound.has_formula && !compound.is_wrong)
        compute(&making, &compound);
    for (const struct node *at = node->body; at; at = at->next) {
        if (!is_of_compound(builder, at))
            making_read_statement(&making, at);
    }
    making_close(&making, node, name);
}
