/* A pack under construction: arrays that grow, then one block of bytes. Declarations are read kind by kind, so
 * that units stand before nutrients, nutrients and groups before foods, whatever the order of files. */
#include <stdlib.h>
#include <string.h>

#include "library/build.h"
#include "library/pack.h"

/* ---- growing ------------------------------------------------------------------------------------------------ */

uint32_t build_add(struct builder *builder, void **items, uint32_t *count, uint32_t *capacity, size_t size)
{
    if (!array_grow(&builder->allocator, items, *count, capacity, size)) {
        builder->failed = true;
        return NONE_INDEX;
    }
    memset((char *)*items + *count * size, 0, size);
    return (*count)++;
}

struct pack_text build_text(struct builder *builder, struct text text)
{
    while (builder->strings_capacity - builder->strings_count < text.length) {
        if (!array_grow(&builder->allocator, &builder->strings, builder->strings_capacity, &builder->strings_capacity, 1)) {
            builder->failed = true;
            return (struct pack_text){ 0, 0 };
        }
    }
    struct pack_text kept = { builder->strings_count, text.length };
    if (text.length)
        memcpy(builder->strings + kept.offset, text.bytes, text.length);
    builder->strings_count += text.length;
    return kept;
}

uint32_t build_text_number(struct builder *builder, struct text text)
{
    struct pack_text kept = build_text(builder, text);
    uint32_t number = BUILD_ADD(builder, texts);
    if (number != NONE_INDEX)
        builder->texts[number] = kept;
    return number;
}

struct text build_string(const struct builder *builder, struct pack_text text)
{
    return (struct text){ builder->strings + text.offset, text.length };
}

/* ---- names ---------------------------------------------------------------------------------------------------- */

/* The number of the name itself. */
static uint32_t find_key(const struct builder *builder, enum name_space space, struct text key)
{
    uint32_t position, found;
    uint64_t hash = hash_mix(hash_bytes(key.bytes, key.length), space + 1);
    for (found = table_find(&builder->table, hash, &position); found != TABLE_NONE;
         found = table_next(&builder->table, hash, &position)) {
        const struct name *name = &builder->names[found];
        if (name->space == (uint32_t)space && text_equal(build_string(builder, name->key), key))
            return found;
    }
    return NONE_INDEX;
}

static void report_duplicate(struct builder *builder, struct text written, struct place place, uint32_t earlier)
{
    struct finding *finding = finding_add(builder->findings, FINDING_DUPLICATE_NAME, place, GAPS(written));
    finding_label(builder->findings, finding, builder->places[earlier], WORDS_FIRST_DECLARED_HERE, NO_GAPS);
}

/* True when the key may be taken; else a finding has been added. Aliases of one thing may repeat each other. */
static bool key_is_free(struct builder *builder, enum name_space space, struct text key, struct text written,
                        struct place place, uint32_t index)
{
    uint32_t earlier = space == SPACE_TREATMENT || space == SPACE_CLAIM || space == SPACE_REFERENCE ? NONE_INDEX : find_key(builder, space, key);
    if (earlier != NONE_INDEX) {
        if (builder->names[earlier].index != index)
            report_duplicate(builder, written, place, earlier);
        return false;
    }
    bool instead = space == SPACE_FOOD && builder->foods[index].flags & FOOD_INSTEAD;
    if (builder->base && space == SPACE_FOOD && !instead && library_food(builder->base, key).food) {
        if (builder->told_taken != index + 1)    /* once a food */
            finding_add(builder->findings, FINDING_REPLACES_LIBRARY, place, GAPS(written));
        builder->told_taken = index + 1;
        return false;
    }
    return true;
}

uint32_t build_find_key(const struct builder *builder, enum name_space space, struct text key)
{
    uint32_t number = find_key(builder, space, key);
    return number == NONE_INDEX ? NONE_INDEX : builder->names[number].index;
}

void build_key(struct builder *builder, enum name_space space, struct text key, struct text written,
               struct place place, uint32_t index)
{
    if (key.length == 0 || index == NONE_INDEX || !key_is_free(builder, space, key, written, place, index))
        return;
    struct name name = { .key = build_text(builder, key), .written = build_text(builder, written),
                         .space = space, .index = index };
    uint32_t number = BUILD_ADD(builder, names);
    uint32_t spot = BUILD_ADD(builder, places);
    if (number == NONE_INDEX || spot == NONE_INDEX)
        return;
    builder->names[number] = name;
    builder->places[spot] = place;
    if (!table_add(&builder->table, hash_mix(hash_bytes(key.bytes, key.length), space + 1), number))
        builder->failed = true;
}

void build_name(struct builder *builder, enum name_space space, struct text written, struct place place,
                bool ordered, uint32_t index)
{
    char key[KEY_BYTES];
    uint32_t length = name_key_of(written, ordered, key);
    if (length == 0)
        finding_add(builder->findings, FINDING_NAME_TOO_LONG, place, GAPS(written));
    build_key(builder, space, (struct text){ key, length }, written, place, index);
}

uint32_t build_group_first(const struct builder *builder)
{
    return builder->base ? builder->base->group_first + builder->base->groups_count : 0;
}

const struct group *build_group_at(const struct builder *builder, uint32_t number)
{
    uint32_t first = build_group_first(builder);
    if (number >= first && number - first < builder->groups_count)
        return &builder->groups[number - first];
    return builder->base ? library_group_at(builder->base, number) : NULL;
}

uint32_t build_find(const struct builder *builder, enum name_space space, struct text name)
{
    char key[KEY_BYTES];
    struct text found = { key, name_key_of(name, false, key) };
    uint32_t number = find_key(builder, space, found);
    if (number != NONE_INDEX)
        return builder->names[number].index + (space == SPACE_GROUP ? build_group_first(builder) : 0);
    uint32_t index;
    if (builder->base && space == SPACE_GROUP)
        return library_group(builder->base, found);
    if (builder->base && space == SPACE_NUTRIENT && library_nutrient(builder->base, found, &index))
        return index;
    return NONE_INDEX;
}

uint32_t build_nutrient(const struct builder *builder, struct text name)
{
    return build_find(builder, SPACE_NUTRIENT, name);
}

const struct nutrient *build_nutrient_at(const struct builder *builder, uint32_t number)
{
    return builder->base ? library_nutrient_at(builder->base, number, NULL) : &builder->nutrients[number];
}

const struct unit *build_unit(const struct builder *builder, struct text name)
{
    char key[KEY_BYTES];
    struct text found = { key, name_key_of(name, false, key) };
    uint32_t number = find_key(builder, SPACE_UNIT, found);
    if (number != NONE_INDEX)
        return &builder->units[builder->names[number].index];
    return builder->base ? library_unit(builder->base, found, NULL) : NULL;
}

uint32_t build_nutrient_total(const struct builder *builder)
{
    return builder->base ? builder->base->nutrient_total : builder->nutrients_count;
}

uint32_t build_column_count(const struct builder *builder, uint32_t *traced)
{
    uint32_t total = build_nutrient_total(builder);
    *traced = builder->base ? builder->base->traced : NONE_INDEX;
    for (uint32_t i = 0; !builder->base && i < total; i++) {
        if (builder->nutrients[i].traced)
            *traced = i;
    }
    return total + (*traced != NONE_INDEX ? ORIGIN_COUNT : 0) + 1;
}

/* ---- written text ------------------------------------------------------------------------------------------------ */

struct text build_written(const struct builder *builder, struct span span)
{
    return span_text(builder->declaration->text, span);
}

struct place build_place(const struct builder *builder, struct span span)
{
    return (struct place){ builder->declaration->file, span };
}

struct text build_items_text(const struct builder *builder, const struct item *first)
{
    if (!first)
        return (struct text){ "", 0 };
    const struct item *last = first;
    while (last->next && last->next->kind != ITEM_GROUP)
        last = last->next;
    return build_written(builder, (struct span){ first->span.start, last->span.end });
}

struct text build_words(const struct builder *builder, const struct item *items, char *storage, uint32_t size)
{
    uint32_t used = 0;
    for (; items; items = items->next) {
        struct text word = build_written(builder, items->span);
        if (items->kind == ITEM_STRING || items->kind == ITEM_GROUP)
            continue;
        if (used + word.length + 2 > size)
            return (struct text){ storage, 0 };
        if (used)
            storage[used++] = ' ';
        for (uint32_t i = 0; i < word.length; i++) {
            bool curly = word.length - i >= 3 && memcmp(word.bytes + i, "\xE2\x80\x99", 3) == 0;
            char byte = curly ? '\'' : word.bytes[i];
            i += curly ? 2 : 0;
            storage[used++] = byte >= 'A' && byte <= 'Z' ? (char)(byte + 32) : byte;
        }
    }
    return (struct text){ storage, used };
}

struct text build_unit_text(const struct builder *builder, const struct item *unit)
{
    const struct item *last = unit;
    if (!unit || unit->kind != ITEM_WORD)
        return (struct text){ "", 0 };
    while (last->next && last->next->kind == ITEM_WORD)
        last = last->next;
    return build_written(builder, (struct span){ unit->span.start, last->span.end });
}

/* ---- numbers ---------------------------------------------------------------------------------------------------- */

/* Low and high from what stands in parentheses: `38% to 62%` or `5.7 g to 6.3 g`. */
static bool read_bounds(const struct item *inside, double *low, double *high)
{
    uint32_t count = 0;
    for (; inside; inside = inside->next) {
        if (inside->quantity && inside->quantity->kind == QUANTITY_BAD)
            return false;
        if (inside->kind == ITEM_RANGE) {
            *low = inside->quantity->low;
            *high = inside->quantity->high;
            return true;
        }
        if (inside->kind == ITEM_NUMBER)
            *(count++ ? high : low) = inside->quantity->low;
    }
    return count == 2;
}

struct range build_range(struct builder *builder, const struct quantity *quantity, const struct item *unit,
                         double factor)
{
    struct range range = range_between(quantity->low * factor, quantity->high * factor);
    if (quantity->kind == QUANTITY_BAD || quantity->kind == QUANTITY_NONE)
        return range_exact(0);
    for (; unit; unit = unit->next) {
        double low = 0, high = 0;
        if (unit->kind != ITEM_GROUP || !read_bounds(unit->inside, &low, &high))
            continue;
        range.low = low * factor;
        range.high = high * factor;
        if (amount_compare(range.low, range.best) > 0 || amount_compare(range.best, range.high) > 0) {
            finding_add(builder->findings, FINDING_BOUNDS_OUTSIDE, build_place(builder, unit->span), NO_GAPS);
            return range_exact(range.best);
        }
    }
    return range;
}

static bool is_range_group(const struct item *item)
{
    double low = 0, high = 0;
    return item->kind == ITEM_GROUP && read_bounds(item->inside, &low, &high);
}

struct text build_quoted(const struct builder *builder, const struct item *items)
{
    const struct item *string = build_string_item(items);
    return string ? build_written(builder, string->span) : (struct text){ "", 0 };
}

static void tell_extra(struct builder *builder, struct span span)
{
    finding_add(builder->findings, FINDING_EXTRA_WORDS, build_place(builder, span), GAPS(build_written(builder, span)));
}

bool build_only_amount(struct builder *builder, const struct node *node)
{
    uint32_t groups = 0, strings = 0;
    const struct item *extra = node->unit.first;
    for (; extra; extra = extra->next) {
        groups += is_range_group(extra);
        strings += extra->kind == ITEM_STRING;
        bool word = extra->kind == ITEM_WORD && groups + strings == 0;
        if (!word && !(is_range_group(extra) && groups == 1) && !(extra->kind == ITEM_STRING && strings == 1))
            break;
    }
    if (!extra && !node->has_body && !node->phrases.first)
        return true;
    tell_extra(builder, extra ? extra->span : node->span);
    return false;
}

bool build_only_percent(struct builder *builder, const struct node *node)
{
    const struct item *first = node->unit.first;
    if (!first || first->kind != ITEM_WORD)
        return build_only_amount(builder, node);
    tell_extra(builder, first->span);
    return false;
}

bool build_only_words(struct builder *builder, const struct node *node)
{
    const struct item *extra = node->items.first;
    while (extra && extra->kind == ITEM_WORD)
        extra = extra->next;
    if (!extra && node->quantity.kind == QUANTITY_NONE && !node->phrases.first && !node->has_body)
        return true;
    tell_extra(builder, extra ? extra->span : node->quantity.kind != QUANTITY_NONE ? node->quantity.span
                      : node->phrases.first ? node->phrases.first->span : node->span);
    return false;
}

const struct item *build_string_item(const struct item *items)
{
    while (items && items->kind != ITEM_STRING)
        items = items->next;
    return items;
}

double build_factor(struct builder *builder, const struct node *node, const struct item *unit,
                    enum dimension dimension)
{
    struct text written = build_unit_text(builder, unit);
    const struct unit *found = build_unit(builder, written);
    if (found && found->dimension == (uint32_t)dimension)
        return found->factor.best;
    static const char *const names[] = { "nothing", "mass", "volume", "count", "energy", "substance", "charge" };
    finding_add(builder->findings, written.length ? FINDING_WRONG_UNIT : FINDING_MISSING_UNIT,
                build_place(builder, unit ? unit->span : node->quantity.span),
                GAPS(written, text_of(dimension < COUNT_OF(names) ? names[dimension] : "length")));
    return 0;
}

struct text build_nutrient_unit(const struct builder *builder, uint32_t number)
{
    const struct nutrient *found = build_nutrient_at(builder, number);
    return builder->base ? library_text(builder->base, found->unit) : build_string(builder, found->unit);
}

double build_nutrient_factor(struct builder *builder, const struct node *node, uint32_t nutrient,
                             const struct item *unit)
{
    const struct nutrient *found = build_nutrient_at(builder, nutrient);
    struct text name = build_nutrient_unit(builder, nutrient);
    if (text_equal(build_unit_text(builder, unit), name))
        return 1;
    const struct unit *energy = build_unit(builder, name);
    double factor = build_factor(builder, node, unit, energy ? (enum dimension)energy->dimension : DIMENSION_MASS);
    return factor / found->unit_factor;
}

struct finding *build_unknown_statement(struct builder *builder, const struct node *node, const char *where)
{
    struct text text = build_written(builder, node->keyword.end ? node->keyword : node->span);
    if (node->kind == NODE_BROKEN)
        return NULL;
    if (text.length > 40)
        text.length = 40;
    return finding_add(builder->findings, FINDING_MISPLACED, build_place(builder, node->span), GAPS(text, text_of(where)));
}

void build_former_word(struct builder *builder, const struct item *item, const char *now)
{
    finding_former_word(builder->findings, build_place(builder, item->span), build_written(builder, item->span), now);
}

/* Of several words each must be like the one at its place: `daily valu` is like `daily value`, `check` is not. */
static double start_likeness(struct text written, struct text known)
{
    struct text ours[LIMIT_NAME_WORDS], theirs[LIMIT_NAME_WORDS];
    uint32_t count = name_split(known, theirs, LIMIT_NAME_WORDS), have = name_split(written, ours, LIMIT_NAME_WORDS);
    double sum = 0;
    for (uint32_t i = 0; i < count && i < have; i++) {
        double like = name_word_likeness(ours[i], theirs[i]);
        if (like <= 0)
            return 0;
        sum += like;
    }
    return count && count <= have ? sum / count : 0;
}

void build_unknown_word(struct builder *builder, const struct node *node, const char *where, const char *const *known, uint32_t count)
{
    char storage[128];
    struct finding *finding = build_unknown_statement(builder, node, where);
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    uint32_t best = count;
    double likeness = 0.5;
    for (uint32_t i = 0; i < count; i++) {
        double like = start_likeness(words, text_of(known[i]));
        best = like > likeness ? i : best;
        likeness = like > likeness ? like : likeness;
    }
    if (finding && best < count)
        finding_note(builder->findings, finding, WORDS_NEAR_NAME, GAPS(text_of(known[best])));
}

struct finding *build_unknown(struct builder *builder, const struct node *node, enum name_space space, struct text name)
{
    static const enum words_code codes[] = { [SPACE_NUTRIENT] = FINDING_UNKNOWN_NUTRIENT, [SPACE_GROUP] = FINDING_UNKNOWN_GROUP };
    struct near_name near[3];
    struct finding *finding = finding_add(builder->findings, codes[space], build_place(builder, node->span), GAPS(name));
    bool looks = finding && builder->base && builder->near_searches++ < LIMIT_NEAR_SEARCHES;
    uint32_t count = looks ? library_near(builder->base, 1u << space, name, near, COUNT_OF(near)) : 0;
    for (uint32_t i = 0; i < count; i++)
        finding_note(builder->findings, finding, WORDS_NEAR_NAME, GAPS(library_text(near[i].library, near[i].name->written)));
    return finding;
}

uint32_t build_known(struct builder *builder, const struct node *node, enum name_space space, struct text name)
{
    uint32_t number = build_find(builder, space, name);
    if (number == NONE_INDEX)
        build_unknown(builder, node, space, name);
    return number;
}

enum origin build_origin(struct builder *builder, const struct node *node)
{
    struct text word = build_items_text(builder, node->items.first->next);
    enum origin origin = origin_of(word);
    build_only_words(builder, node);
    if (origin == ORIGIN_COUNT)
        finding_add(builder->findings, FINDING_UNKNOWN_ORIGIN, build_place(builder, node->span), GAPS(word));
    return origin;
}
