/* What there is to tell of a recipe apart from its limits: lines, parts, baths, its yield. */
#include <stdio.h>

#include "judge/notes.h"

struct place recipe_line_place(const struct sums *sums, const struct line *line)
{
    struct place place = { sums->at.recipe->file, { line->start, line->start } };
    if (line->tail != NONE_INDEX)
        place.span.end = line->tail_start + sums->at.gathering->tails[line->tail].text.length;
    return place;
}

static void warn_unmeasured(const struct sums *sums, const struct line_amount *amount, struct findings *findings)
{
    const struct resolved *resolved = amount->resolved;
    struct food_at food = resolved->food;
    struct text name = food.food ? library_text(food.library, food.food->name)
                     : resolved->subject == SUBJECT_BATH ? resolved->rare->bath : text_of("recipe");
    finding_add(findings, FINDING_UNMEASURED, recipe_line_place(sums, amount->line), GAPS(name));
}

/* `told_part`: the part of which it was told that what was done to it is not computed. */
static void speak_line(struct speaking *speaking, uint32_t number, struct findings *findings, uint32_t *told_part)
{
    const struct sums *sums = speaking->sums;
    const struct line_amount *amount = &sums->lines[number];
    struct finding *before = findings->last;
    struct gathering *gathering = sums->at.gathering;
    const struct line *line = amount->line;
    uint32_t flags = amount->resolved ? amount->resolved->flags : 0;
    bool told = line->flags & LINE_WITHOUT_AMOUNT && flags & RESOLVED_BAD;
    if (flags & RESOLVED_SPEAKS && !told)
        tail_speak(gathering, line->tail, findings, sums->at.recipe->file, line->tail_start);
    if (flags & RESOLVED_SPEAKS_AROUND && !(flags & RESOLVED_NOT_COMPUTED && *told_part == line->part))
        tail_speak_within(gathering, line->tail, line->part, findings, sums->at.recipe->file);
    if (flags & RESOLVED_SPEAKS_AROUND && flags & RESOLVED_NOT_COMPUTED)
        *told_part = line->part;
    speaking_settle(speaking, number, number + 1, findings, before);
    if (amount->too_large)
        finding_add(findings, FINDING_AMOUNT_TOO_LARGE, recipe_line_place(sums, line), NO_GAPS);
    if (amount->thrown_too_much)
        finding_add(findings, FINDING_THROWN_TOO_MUCH, recipe_line_place(sums, line), NO_GAPS);
    if (amount->disagrees)
        finding_add(findings, FINDING_AMOUNTS_DISAGREE, recipe_line_place(sums, line), NO_GAPS);
    bool opens = amount->incomplete || (amount->own && amount->unmeasured);     /* a bath may have been thrown away since */
    if (line->quantity == QUANTITY_SOME && !line->flags && amount->unmeasured && opens)
        warn_unmeasured(sums, amount, findings);
}

/* ---- the dish as a whole ----------------------------------------------------------------------------------------- */

static const enum words_code trouble_codes[] = {
    [DISH_BATH_UNKNOWN] = FINDING_BATH_UNKNOWN,           [DISH_BATH_WITHOUT_WATER] = FINDING_BATH_WITHOUT_WATER,
    [DISH_WEIGHT_UNKNOWN] = FINDING_BATH_WEIGHT_UNKNOWN,  [DISH_WATER_NOT_KNOWN] = FINDING_WATER_NOT_KNOWN,
    [DISH_MASS_TOO_LOW] = FINDING_MASS_TOO_LOW,           [DISH_TAKEN_TOO_MUCH] = FINDING_BATH_TAKEN_TOO_MUCH,
    [DISH_BATH_IN_BATH] = FINDING_BATH_IN_BATH,           [DISH_BATH_UNUSED] = FINDING_BATH_UNUSED,
    [DISH_BATH_NAME_TAKEN] = FINDING_BATH_NAME_TAKEN,     [DISH_BATH_TREATMENT] = FINDING_BATH_TREATMENT,
    [DISH_REDUCED_TOO_FAR] = FINDING_REDUCED_TOO_FAR,     [DISH_REDUCED_TOO_MUCH] = FINDING_REDUCED_TOO_MUCH,
    [DISH_THROWN_TOO_MUCH] = FINDING_THROWN_TOO_MUCH,         [DISH_TOO_LONG] = FINDING_DISH_TOO_LONG,
};

static struct place phrase_place(const struct sums *sums, uint32_t tail_start, struct span span)
{
    return (struct place){ sums->at.recipe->file, { tail_start + span.start, tail_start + span.end } };
}

/* At the phrase that went wrong; else at the line or the head of the part. */
static struct place trouble_place(const struct sums *sums, const struct dish_told *told)
{
    const struct gathering *gathering = sums->at.gathering;
    if (told->visit && told->visit->part != NONE_INDEX)
        return phrase_place(sums, gathering->parts[told->visit->part].tail_start, told->visit->span);
    if (told->visit)
        return phrase_place(sums, sums->lines[told->line].line->tail_start, told->visit->span);
    if (told->line != NONE_INDEX)
        return recipe_line_place(sums, sums->lines[told->line].line);
    if (told->part == NONE_INDEX)
        return (struct place){ sums->at.recipe->file, sums->at.recipe->title };
    const struct part *part = &gathering->parts[told->part];
    if (told->trouble == DISH_BATH_TREATMENT || told->trouble == DISH_THROWN_TOO_MUCH || told->trouble == DISH_REDUCED_TOO_FAR
        || told->trouble == DISH_REDUCED_TOO_MUCH)
        return phrase_place(sums, part->tail_start, (struct span){ 0, gathering->tails[part->tail].text.length });
    return part->place;
}

/* The name that the sentence needs: of the bath, of the food, or what stands behind the part. */
static struct text trouble_name(const struct sums *sums, const struct dish_told *told)
{
    const struct gathering *gathering = sums->at.gathering;
    const struct resolved *resolved = told->line != NONE_INDEX ? sums->lines[told->line].resolved : NULL;
    if (told->trouble == DISH_WATER_NOT_KNOWN)
        return resolved->food.food ? library_text(resolved->food.library, resolved->food.food->name)
             : resolved->recipe.recipe ? resolved->recipe.recipe->name : text_of("it");
    if (told->trouble == DISH_BATH_TREATMENT)
        return gathering->tails[gathering->parts[told->part].tail].text;
    if (told->visit)
        return told->visit->bath;
    if (resolved)
        return resolved->rare->bath;
    if (told->part == NONE_INDEX)
        return sums->at.recipe->name;
    return gathering->parts[told->part].name;
}

/* What water a food holds moves what all lines share of the bath: a note where none of them is wide says nothing. */
static bool is_any_wide(const struct sums *sums)
{
    bool wide = false;
    for (uint32_t i = 0; i < sums->line_count && !wide; i++)
        wide = line_is_wide(sums, &sums->lines[i]);
    return wide;
}

static void speak_dish(const struct sums *sums, struct findings *findings)
{
    for (uint32_t i = 0; i < sums->told_count; i++) {
        const struct dish_told *told = &sums->told[i];
        if (told->trouble == DISH_WATER_NOT_KNOWN && !is_any_wide(sums))
            continue;
        struct finding *finding = finding_add(findings, trouble_codes[told->trouble], trouble_place(sums, told),
                                              GAPS(trouble_name(sums, told)));
        for (uint32_t j = 0; j < sums->bath_count && j < 3 && told->trouble == DISH_BATH_UNKNOWN; j++)
            finding_note(findings, finding, WORDS_NEAR_NAME, GAPS(sums->at.gathering->parts[sums->baths[j].part].name));
    }
}

/* A slip of the pen in `makes` or in a line, or water that boiled away and nobody said so. */
static void check_yield(const struct sums *sums, struct findings *findings)
{
    const struct kitchen *kitchen = sums->at.gathering->kitchen;
    const struct library *library = kitchen->library;
    const struct recipe *recipe = sums->at.recipe;
    double within = kitchen->rules ? kitchen->rules->yield_within : 0;
    struct range went_in = range_exact(0);
    char said[32], summed[32];
    bool estimated, known;
    struct range makes = recipe_grams(recipe, &sums->total, library, &estimated, &known);
    bool whole = amounts_complete(&sums->total, library->mass_column);
    if (estimated || within <= 0)
        return;
    for (uint32_t i = 0; i < sums->line_count; i++)     /* `check` does not add up columns that no limit asks for */
        went_in = range_add(went_in, line_column(&sums->lines[i], library, library->mass_column));
    bool less = makes.high < went_in.low * (1 - within), more = whole && makes.low > went_in.high * (1 + within);
    if (went_in.low <= 0 || !(less || more))        /* of lines that are partly unknown, what is known may be too much already */
        return;
    snprintf(said, sizeof said, "%.0f", makes.best);
    snprintf(summed, sizeof summed, "%.0f", whole ? went_in.best : went_in.low);
    finding_add(findings, FINDING_YIELD_DIFFERS, (struct place){ recipe->file, recipe->title }, GAPS(text_of(said), text_of(summed)));
}

static void speak_part(struct speaking *speaking, const struct part *part, struct findings *findings)
{
    uint32_t first, end;
    const struct sums *sums = speaking->sums;
    struct gathering *gathering = sums->at.gathering;
    struct finding *before = findings->last;
    if (part->tail == NONE_INDEX || !(gathering->tails[part->tail].resolved->flags & RESOLVED_SPEAKS))
        return;
    tail_speak(gathering, part->tail, findings, sums->at.recipe->file, part->tail_start);
    meal_lines(sums, part, &first, &end);
    speaking_settle(speaking, first, end, findings, before);
}

void recipe_speak(const struct sums *sums, struct findings *findings)
{
    struct gathering *gathering = sums->at.gathering;
    uint32_t last_part = NONE_INDEX, told_part = NONE_INDEX;
    bool doubles = false;
    struct speaking speaking;
    speaking_open(&speaking, sums);
    for (uint32_t i = 0; i < sums->line_count; i++) {
        const struct line_amount *amount = &sums->lines[i];
        doubles = doubles || (amount->resolved && amount->resolved->flags & RESOLVED_DOUBLES)
               || line_is_salted_by_cook(amount, gathering->kitchen->library);
        speak_line(&speaking, i, findings, &told_part);
        if (amount->line->part == NONE_INDEX || amount->line->part == last_part)
            continue;
        last_part = amount->line->part;
        speak_part(&speaking, &gathering->parts[last_part], findings);
    }
    speaking_close(&speaking, findings);
    if (doubles)
        recipe_warn_of_doublings(sums, findings);
    speak_dish(sums, findings);
    check_yield(sums, findings);
}
