/* Kinds of persons, and tables of what is published that they eat a day: `person woman { … }`, `intake "…" { … }`. */
#include <string.h>

#include "library/making.h"

#define MONTHS 12
#define FOR_ALL_AGES 10000.0            /* months that nobody reaches */

static struct pack_text string_of(struct builder *builder, const struct item *items)
{
    const struct item *string = build_string_item(items);
    return build_text(builder, string ? build_written(builder, string->span) : (struct text){ "", 0 });
}

static void refuse(struct builder *builder, const struct node *node, const char *forms)
{
    if (node->kind != NODE_BROKEN)
        finding_add(builder->findings, FINDING_INTAKE_FORM, build_place(builder, node->span),
                    GAPS(build_written(builder, node->span), text_of(forms)));
}

/* `19 to 120` years, `0 to 6 months`, `9`: both ends count whole. */
static bool read_ages(struct builder *builder, const struct node *node, double *low, double *high)
{
    struct text unit = build_unit_text(builder, node->unit.first);
    const struct quantity *ages = &node->quantity;
    bool months = text_is(unit, "months"), years = unit.length == 0 || text_is(unit, "years");
    bool good = (ages->kind == QUANTITY_NUMBER || ages->kind == QUANTITY_RANGE) && !ages->is_percent && (months || years);
    if (!good)
        return false;
    *low = months ? ages->low : ages->low * MONTHS;
    *high = months ? ages->high + 1 : (ages->high + 1) * MONTHS;
    return true;
}

/* ---- persons ------------------------------------------------------------------------------------------------------ */

static const char person_forms[] = "a person says `sex female`, `state pregnant`, `ages 14 to 120`, `usually 19 to 120`, `needs age`, `meant by policies`, `defers \"…\"`";

static void read_person_statement(struct builder *builder, const struct node *node, struct person *person, bool *said_usual)
{
    char storage[64];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    bool known = node->kind == NODE_KNOWLEDGE;
    if (node->kind == NODE_SOURCE)
        person->defers_source = string_of(builder, node->items.first);
    else if (known && (text_is(words, "sex female") || text_is(words, "sex male")))
        person->sexes = text_is(words, "sex female") ? SEX_FEMALE : SEX_MALE;
    else if (known && text_starts(words, "state "))
        person->state = build_text(builder, text_behind(words, "state "));
    else if (known && text_is(words, "needs age"))
        person->needs_age = build_only_words(builder, node);
    else if (known && text_is(words, "meant by policies"))
        person->of_policies = build_only_words(builder, node);
    else if (known && text_is(words, "defers"))
        person->defers = string_of(builder, node->items.first);
    else if (known && text_is(words, "ages") && read_ages(builder, node, &person->low, &person->high))
        build_only_amount(builder, node);
    else if (known && text_is(words, "usually") && read_ages(builder, node, &person->usual_low, &person->usual_high))
        *said_usual = true;
    else
        refuse(builder, node, person_forms);
}

void read_person(struct builder *builder, const struct node *node)
{
    const struct item *word = node->items.first->next;
    struct text name = word ? build_items_text(builder, word) : (struct text){ "", 0 };
    struct person person = { .sexes = SEX_ANY, .low = 0, .high = FOR_ALL_AGES };
    bool said_usual = false;
    uint32_t number = BUILD_ADD(builder, persons);
    if (number == NONE_INDEX)
        return;
    person.name = build_text(builder, name);
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind != NODE_ALSO)
            read_person_statement(builder, at, &person, &said_usual);
    }
    if (!said_usual) {
        person.usual_low = person.low;
        person.usual_high = person.high;
    }
    builder->persons[number] = person;
    build_name(builder, SPACE_PERSON, name, build_place(builder, node->span), false, number);
    making_name(builder, node, SPACE_PERSON, number, false);
}

/* ---- tables of intakes ---------------------------------------------------------------------------------------------- */

static const char intake_forms[] = "a table says `for woman 19 to 120 { … }`, `basis sodium adequate \"…\"`, `held to adequate potassium`, `with rules who`, `only with rules who`, `below adequate sodium \"…\"`";
static const char figure_forms[] = "a row says `sodium adequate 1500 mg`, `sodium at most 2300 mg`, `under`, `at least`, `over`, and `shown only`";

struct kind_words {
    const char *words;
    enum intake_kind kind;
    bool strict;
};

static const struct kind_words kinds[] = {
    { " adequate", INTAKE_ADEQUATE, false }, { " at most", INTAKE_AT_MOST, false }, { " under", INTAKE_AT_MOST, true },
    { " at least", INTAKE_AT_LEAST, false }, { " over", INTAKE_AT_LEAST, true },
};

/* The nutrient and the kind of `sodium at most`; NONE_INDEX where the words are others. */
static uint32_t read_subject(const struct builder *builder, struct text words, struct intake_figure *figure)
{
    for (uint32_t i = 0; i < COUNT_OF(kinds); i++) {
        uint32_t length = (uint32_t)strlen(kinds[i].words);
        if (words.length <= length || memcmp(words.bytes + words.length - length, kinds[i].words, length) != 0)
            continue;
        figure->kind = kinds[i].kind;
        figure->strict = kinds[i].strict;
        return build_nutrient(builder, (struct text){ words.bytes, words.length - length });
    }
    return NONE_INDEX;
}

static const struct person *find_person(const struct builder *builder, struct text word, const struct library **owner)
{
    uint32_t number = build_find(builder, SPACE_PERSON, word);
    *owner = NULL;
    if (number != NONE_INDEX)
        return &builder->persons[number];
    return builder->base ? library_person(builder->base, word, owner) : NULL;
}

static struct text person_text(const struct builder *builder, const struct library *owner, struct pack_text text)
{
    return owner ? library_text(owner, text) : build_string(builder, text);
}

/* `for pregnant 19 to 50 {`: who the figures of a row are for. */
static bool read_row_head(struct builder *builder, const struct node *node, struct intake_figure *row)
{
    row->sexes = SEX_ANY;
    for (const struct item *item = node->items.first->next; item; item = item->next) {
        const struct library *owner;
        struct text word = build_written(builder, item->span);
        const struct person *person = find_person(builder, word, &owner);
        if (!person) {
            finding_add(builder->findings, FINDING_INTAKE_PERSON, build_place(builder, item->span), GAPS(word));
            return false;
        }
        row->sexes &= person->sexes;
        if (person->state.length)
            row->state = build_text(builder, person_text(builder, owner, person->state));
    }
    if (read_ages(builder, node, &row->low, &row->high))
        return true;
    refuse(builder, node, intake_forms);
    return false;
}

static void read_figure(struct builder *builder, const struct node *node, struct intake_figure figure)
{
    char storage[128];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    figure.nutrient = read_subject(builder, words, &figure);
    bool amount = node->kind == NODE_KNOWLEDGE && node->quantity.kind == QUANTITY_NUMBER && !node->quantity.is_percent;
    if (figure.nutrient == NONE_INDEX || !amount) {
        refuse(builder, node, figure_forms);
        return;
    }
    if (!build_only_amount(builder, node))
        return;
    figure.is_goal = figure.kind == INTAKE_AT_LEAST;
    figure.amount = node->quantity.low * build_nutrient_factor(builder, node, figure.nutrient, node->unit.first);
    figure.source = string_of(builder, node->unit.first);
    uint32_t number = figure.amount > 0 ? BUILD_ADD(builder, intake_figures) : NONE_INDEX;
    if (number != NONE_INDEX)
        builder->intake_figures[number] = figure;
}

static bool says(const struct builder *builder, const struct node *node, const char *words)
{
    char storage[64];
    return node->kind == NODE_KNOWLEDGE && node->quantity.kind == QUANTITY_NONE
        && text_is(build_words(builder, node->items.first, storage, sizeof storage), words);
}

static void read_row(struct builder *builder, const struct node *node)
{
    struct intake_figure row = { .nutrient = NONE_INDEX };
    if (!read_row_head(builder, node, &row))
        return;
    for (const struct node *at = node->body; at; at = at->next)
        row.shown_only = row.shown_only || (says(builder, at, "shown only") && build_only_words(builder, at));
    for (const struct node *at = node->body; at; at = at->next) {
        if (!says(builder, at, "shown only"))
            read_figure(builder, at, row);
    }
}

/* `basis sodium adequate "…"`: where all such figures of the table are from, and whether anybody read them. */
static bool read_basis(struct builder *builder, const struct node *node, struct text words, uint32_t first)
{
    struct intake_figure like = { .nutrient = NONE_INDEX };
    uint32_t nutrient = read_subject(builder, words, &like);
    struct pack_text source = string_of(builder, node->items.first);
    for (uint32_t i = first; i < builder->intake_figures_count; i++) {
        struct intake_figure *figure = &builder->intake_figures[i];
        if (figure->nutrient == nutrient && figure->kind == like.kind && figure->source.length == 0)
            figure->source = source;
    }
    return nutrient != NONE_INDEX && source.length > 0;
}

static bool read_goal(struct builder *builder, struct text name, uint32_t first)
{
    uint32_t nutrient = build_nutrient(builder, name);
    for (uint32_t i = first; i < builder->intake_figures_count; i++) {
        struct intake_figure *figure = &builder->intake_figures[i];
        if (figure->nutrient == nutrient && figure->kind == INTAKE_ADEQUATE)
            figure->is_goal = 1;
    }
    return nutrient != NONE_INDEX;
}

/* `below adequate sodium "…" { source "…" }` */
static bool read_low(struct builder *builder, const struct node *node, struct text words, struct intake *intake)
{
    intake->low_nutrient = build_nutrient(builder, text_behind(words, "below adequate "));
    intake->low_words = string_of(builder, node->items.first);
    for (const struct node *at = node->body; at; at = at->next) {
        if (at->kind == NODE_SOURCE)
            intake->low_source = string_of(builder, at->items.first);
    }
    return intake->low_nutrient != NONE_INDEX && intake->low_words.length > 0;
}

static void read_intake_statement(struct builder *builder, const struct node *node, struct intake *intake)
{
    char storage[128];
    struct text words = build_words(builder, node->items.first, storage, sizeof storage);
    bool good = node->kind == NODE_SOURCE;
    if (node->kind == NODE_KNOWLEDGE && text_starts(words, "for ")) {
        good = true;                                    /* a row, read before */
    } else if (node->kind == NODE_KNOWLEDGE && text_starts(words, "basis ")) {
        good = read_basis(builder, node, text_behind(words, "basis "), intake->first_figure);
    } else if (node->kind == NODE_KNOWLEDGE && text_starts(words, "held to adequate ")) {
        build_only_words(builder, node);
        good = read_goal(builder, text_behind(words, "held to adequate "), intake->first_figure);
    } else if (node->kind == NODE_KNOWLEDGE && (text_starts(words, "with rules ") || text_starts(words, "only with rules "))) {
        build_only_words(builder, node);
        intake->only = words.bytes[0] == 'o';
        intake->rules = build_text(builder, text_behind(words, intake->only ? "only with rules " : "with rules "));
        good = true;
    } else if (node->kind == NODE_KNOWLEDGE && text_starts(words, "below adequate ")) {
        good = read_low(builder, node, words, intake);
    }
    if (!good)
        refuse(builder, node, intake_forms);
}

void read_intake(struct builder *builder, const struct node *node)
{
    struct intake intake = { .title = string_of(builder, node->items.first), .low_nutrient = NONE_INDEX,
                             .first_figure = builder->intake_figures_count };
    uint32_t number = BUILD_ADD(builder, intakes);
    if (number == NONE_INDEX)
        return;
    for (const struct node *at = node->body; at; at = at->next) {
        char storage[128];
        if (at->kind == NODE_KNOWLEDGE && at->has_body && text_starts(build_words(builder, at->items.first, storage, sizeof storage), "for "))
            read_row(builder, at);
    }
    for (const struct node *at = node->body; at; at = at->next)
        read_intake_statement(builder, at, &intake);
    intake.figure_count = builder->intake_figures_count - intake.first_figure;
    builder->intakes[number] = intake;
}
