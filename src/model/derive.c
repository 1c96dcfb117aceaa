/* Notes how a tail is resolved, where somebody asked. */
#include <string.h>

#include "model/derive.h"
#include "model/resolve.h"

static struct text kept_text(struct derivation *derivation, struct text text)
{
    char *copy = text.length ? arena_copy(derivation->arena, text.bytes, text.length) : NULL;
    derivation->failed = derivation->failed || (text.length && !copy);
    return (struct text){ copy, copy ? text.length : 0 };
}

static struct derived_step *add_step(struct derivation *derivation)
{
    if (derivation->count == derivation->capacity) {
        uint32_t capacity = derivation->capacity ? 2 * derivation->capacity : 16;
        struct derived_step *grown = arena_take(derivation->arena, capacity * sizeof *grown);
        derivation->failed = derivation->failed || !grown;
        if (!grown)
            return NULL;
        if (derivation->count)
            memcpy(grown, derivation->steps, derivation->count * sizeof *grown);
        derivation->steps = grown;
        derivation->capacity = capacity;
    }
    return &derivation->steps[derivation->count++];
}

void derive_note(struct derivation *derivation, enum derived_kind kind, struct text words, struct text source, struct range factor, struct range per)
{
    struct derived_step *step = derivation ? add_step(derivation) : NULL;
    if (step)
        *step = (struct derived_step){ .kind = kind, .of_thrown = derivation->of_thrown, .words = kept_text(derivation, words),
                                       .source = kept_text(derivation, source), .factor = factor, .per = per };
}

void derive_restart(struct derivation *derivation)
{
    if (derivation && !derivation->of_thrown)
        derivation->count = 0;
}

static const struct text none = { "", 0 };

/* The library of the chain that declares the unit. */
static const struct library *unit_owner(const struct library *library, const struct unit *unit)
{
    while (library && !(unit >= library->units && unit < library->units + library->units_count))
        library = library->base;
    return library;
}

void derive_unit(const struct resolving *resolving, const struct unit *unit)
{
    const struct library *owner = resolving->derivation ? unit_owner(resolving->library, unit) : NULL;
    if (!owner)
        return;
    derive_note(resolving->derivation, DERIVED_UNIT, library_text(owner, unit->name), library_text(owner, unit->source), unit->factor, range_exact(1));
    if (resolving->derivation->count)
        resolving->derivation->steps[resolving->derivation->count - 1].in = unit->dimension == DIMENSION_MASS ? "g" : unit->dimension == DIMENSION_VOLUME ? "ml" : NULL;
}

void derive_times(const struct resolving *resolving, enum derived_kind kind, struct text words, struct range times)
{
    if (!range_is_exact(times) || times.best != 1)
        derive_note(resolving->derivation, kind, words, none, times, range_exact(1));
}

static void add_portion_words(struct buffer *words, struct food_at food, const struct portion *portion)
{
    struct text unit = library_text(food.library, portion->unit), state = library_text(food.library, portion->state);
    buffer_print(words, "%s1 %.*s%s%.*s", words->length ? ", " : "", (int)unit.length, unit.bytes, state.length ? " " : "", (int)state.length, state.bytes);
}

/* Portions of the same unit or volume are those that may have been joined. */
static bool is_alike(const struct portion *a, const struct portion *b)
{
    return a->unit.offset == b->unit.offset && a->unit.length == b->unit.length && a->volume_ml == b->volume_ml;
}

/* Where a portion's weight comes from, unless that was said of one before it. */
static void add_portion_source(struct buffer *sources, struct food_at food, const struct portion *portion)
{
    struct text source = library_text(food.library, portion->source.length ? portion->source : food.food->source);
    for (size_t at = 0; at + source.length <= sources->length; at++) {
        if (source.length == 0 || memcmp(sources->bytes + at, source.bytes, source.length) == 0)
            return;
    }
    buffer_add_string(sources, sources->length ? "; " : "");
    buffer_add(sources, source.bytes, source.length);
}

static void note_portions(const struct resolving *resolving, enum derived_kind kind, const struct buffer *words, const struct buffer *sources,
                          struct range grams, double per)
{
    resolving->derivation->failed = resolving->derivation->failed || words->failed || sources->failed;
    derive_note(resolving->derivation, kind, (struct text){ words->bytes, (uint32_t)words->length },
                (struct text){ sources->bytes, (uint32_t)sources->length }, grams, range_exact(per));
}

void derive_portion(const struct resolving *resolving, struct food_at food, const struct portion *portion, struct range grams, double per, bool joined)
{
    struct buffer words, sources;
    if (!resolving->derivation)
        return;
    buffer_open(&words, resolving->derivation->arena->allocator);
    buffer_open(&sources, resolving->derivation->arena->allocator);
    add_portion_words(&words, food, portion);
    add_portion_source(&sources, food, portion);
    for (uint32_t i = 0; i < food.food->portion_count && joined; i++) {
        const struct portion *other = &food.library->portions[food.food->first_portion + i];
        if (other == portion || !is_alike(portion, other))
            continue;
        add_portion_words(&words, food, other);
        add_portion_source(&sources, food, other);
    }
    note_portions(resolving, DERIVED_PORTION, &words, &sources, grams, per);
    buffer_close(&sources);
    buffer_close(&words);
}

void derive_pieces(const struct resolving *resolving, struct food_at food, const char *words, const struct portion *const *portions, uint32_t count, struct range grams)
{
    struct buffer said, sources;
    if (!resolving->derivation)
        return;
    buffer_open(&said, resolving->derivation->arena->allocator);
    buffer_open(&sources, resolving->derivation->arena->allocator);
    buffer_add_string(&said, words);
    for (uint32_t i = 0; i < count; i++) {
        if (portions[i])
            add_portion_source(&sources, food, portions[i]);
    }
    note_portions(resolving, DERIVED_PIECE, &said, &sources, grams, 1);
    buffer_close(&sources);
    buffer_close(&said);
}

void derive_of_food(const struct resolving *resolving, struct food_at food, enum derived_kind kind, const char *words, struct range factor, struct range per)
{
    derive_note(resolving->derivation, kind, text_of(words), library_text(food.library, food.food->source), factor, per);
}

void derive_treatment(const struct resolving *resolving, const struct library *owner, const struct treatment *treatment, struct text written, uint32_t evidence)
{
    struct derivation *derivation = resolving->derivation;
    if (!derivation)
        return;
    derivation->name = kept_text(derivation, library_text(owner, treatment->name));
    derivation->source = kept_text(derivation, library_text(owner, treatment->source));
    derivation->evidence = evidence;
    derive_note(derivation, DERIVED_TREATMENT, treatment->step_count > 1 ? derivation->name : written, derivation->source, range_exact(1), range_exact(1));
    if (derivation->count)
        derivation->steps[derivation->count - 1].evidence = evidence;
}

void derive_effect(const struct resolving *resolving, enum derived_kind kind, uint32_t column, struct range share)
{
    struct derivation *derivation = resolving->derivation;
    if (!derivation || (column != derivation->column && column != NONE_INDEX))
        return;
    derive_note(derivation, kind, derivation->name, derivation->source, share, range_exact(1));
    if (derivation->count)
        derivation->steps[derivation->count - 1].evidence = derivation->evidence;
}

bool tail_derive(struct gathering *gathering, uint32_t tail, uint32_t part, struct derivation *derivation)
{
    struct resolved again = { 0 };
    struct arena_mark mark = arena_mark(&gathering->arena), keeps_mark = arena_mark(&gathering->keeps_arena);
    resolve_derive(gathering, &gathering->tails[tail], part, derivation, &again);
    arena_rewind(&gathering->arena, mark);
    arena_rewind(&gathering->keeps_arena, keeps_mark);
    return !derivation->failed;
}
