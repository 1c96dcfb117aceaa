/* What is published for who eats a day: a figure that may be meant counts, and of several the strictest is kept, the
 * loosest broken. */
#include "judge/judge.h"

struct eating {
    const struct sums *sums;
    const struct kitchen *kitchen;
    const struct eater *eater;
    struct verdicts *verdicts;
    struct findings *findings;
    const struct who *who;
};

static void tell(const struct eating *eating, enum words_code code, const struct text *gaps, uint32_t gap_count)
{
    if (eating->findings)
        finding_add(eating->findings, code, eating->eater->place, gaps, gap_count);
}

/* ---- what is published for them -------------------------------------------------------------------------------------- */

static bool has_rules(const struct eating *eating, const struct library *owner, const struct intake *intake)
{
    const struct kitchen *kitchen = eating->kitchen;
    return kitchen->rules && intake->rules.length
        && text_equal(library_text(owner, intake->rules), library_text(kitchen->rules_owner, kitchen->rules->name));
}

static bool is_meant(const struct eating *eating, const struct library *owner, const struct intake_figure *figure)
{
    return intake_is_for(owner, figure, eating->who->sexes, eating->who->state, eating->who->low, eating->who->high);
}

static bool judges(const struct intake_figure *figure)
{
    return (figure->kind != INTAKE_ADEQUATE || figure->is_goal) && !figure->shown_only;
}

/* Whether a table of the rules that the kitchen follows has a figure of the nutrient that judges who eats. */
static bool rules_judge(const struct eating *eating, uint32_t nutrient)
{
    bool found = false;
    for (const struct library *library = eating->kitchen->library; library; library = library->base) {
        for (uint32_t i = 0; i < library->intakes_count; i++) {
            const struct intake *intake = &library->intakes[i];
            for (uint32_t j = 0; j < intake->figure_count && has_rules(eating, library, intake); j++) {
                const struct intake_figure *figure = &library->intake_figures[intake->first_figure + j];
                found = found || (figure->nutrient == nutrient && judges(figure) && is_meant(eating, library, figure));
            }
        }
    }
    return found;
}

/* The table of the rules that the kitchen follows; of a nutrient for which they judge nothing, those that belong to no rules: no limit
 * is lost because other rules are followed. */
static bool is_held(const struct eating *eating, const struct library *owner, const struct intake_figure *figure, const struct intake *intake)
{
    return has_rules(eating, owner, intake) || (intake->rules.length == 0 && !rules_judge(eating, figure->nutrient));
}

/* The entry for figures of this kind in this table, made when there is none yet; NULL when memory failed. */
static struct published *entry_for(const struct eating *eating, struct published_set *set, const struct library *owner,
                                   const struct intake *intake, const struct intake_figure *figure)
{
    struct allocator allocator = eating->kitchen->allocator;
    for (uint32_t i = 0; i < set->count; i++) {
        struct published *at = &set->at[i];
        if (at->intake == intake && at->figure->nutrient == figure->nutrient && at->figure->kind == figure->kind)
            return at;
    }
    if (!array_grow(&allocator, &set->at, set->count, &set->capacity, sizeof *set->at))
        return NULL;
    struct published *made = &set->at[set->count++];
    *made = (struct published){ .owner = owner, .intake = intake, .figure = figure, .least = figure->amount, .most = figure->amount };
    return made;
}

/* A figure for the day. One for a meal, or for a ratio, says nothing of how much a day may hold. */
static bool set_by_clinician(const struct verdicts *verdicts, uint32_t nutrient)
{
    bool set = false;
    for (uint32_t i = 0; i < verdicts->count; i++) {
        const struct bound *bound = verdicts->at[i].bound;
        set = set || (bound->by_clinician && bound->column == nutrient && bound->over == NONE_INDEX && bound->basis == PER_DAY);
    }
    return set;
}

static enum published_use use_of(const struct eating *eating, const struct published *published)
{
    const struct intake_figure *figure = published->figure;
    if (!judges(figure) || !is_held(eating, published->owner, figure, published->intake))
        return PUBLISHED_SHOWN;
    if (set_by_clinician(eating->verdicts, figure->nutrient))
        return PUBLISHED_CLINICIAN;
    return eating->eater->under_care ? PUBLISHED_UNDER_CARE : PUBLISHED_JUDGED;
}

static void close_entry(const struct eating *eating, struct published *published)
{
    const struct library *owner;
    const struct intake_figure *figure = published->figure;
    const struct nutrient *nutrient = library_nutrient_at(eating->kitchen->library, figure->nutrient, &owner);
    bool most = figure->kind == INTAKE_AT_MOST;
    published->bound = (struct bound){ .column = figure->nutrient, .over = NONE_INDEX, .is_goal = figure->is_goal, .has_most = most,
        .has_least = !most, .strict = figure->strict, .origin = ORIGIN_COUNT, .basis = PER_DAY, .divisor = 1, .meal = NONE_INDEX,
        .most = most ? published->least : 0, .least = most ? 0 : published->most, .slack = published->most - published->least,
        .unit = library_text(owner, nutrient->unit), .place = eating->eater->place };
    published->use = use_of(eating, published);
}

static bool find_figures(struct eating *eating, struct published_set *set)
{
    bool held = false;
    for (const struct library *library = eating->kitchen->library; library; library = library->base) {
        for (uint32_t i = 0; i < library->intakes_count; i++) {
            const struct intake *intake = &library->intakes[i];
            for (uint32_t j = 0; j < intake->figure_count; j++) {
                const struct intake_figure *figure = &library->intake_figures[intake->first_figure + j];
                if (!is_meant(eating, library, figure) || (intake->only && !has_rules(eating, library, intake)))
                    continue;
                struct published *entry = entry_for(eating, set, library, intake, figure);
                if (!entry)
                    return false;
                entry->least = amount_smaller(entry->least, figure->amount);
                entry->most = amount_larger(entry->most, figure->amount);
                held = held || is_held(eating, library, figure, intake);
            }
        }
    }
    if (!held)
        tell(eating, FINDING_NO_INTAKE, GAPS(eating->eater->written));
    for (uint32_t i = 0; i < set->count; i++)
        close_entry(eating, &set->at[i]);
    return true;
}

/* ---- less than is adequate ------------------------------------------------------------------------------------------- */

/* A dish that nobody weighed has no surest high end. */
static struct text held_words(const struct eating *eating, struct range held, struct text unit, char *storage, size_t size)
{
    char amount[48];
    bool estimated = eating->sums->estimated;
    print_amount(amount, sizeof amount, estimated ? held.best : held.high, unit);
    snprintf(storage, size, estimated ? "about %s (an estimate: nobody weighed a dish in it)" : "at most %s", amount);
    return text_of(storage);
}

static void tell_low(const struct eating *eating, const struct published *published, struct range held)
{
    char words[128], adequate[48];
    struct text unit = published->bound.unit;
    if (!eating->findings)
        return;
    struct finding *finding = finding_add(eating->findings, FINDING_LOW_SODIUM, eating->eater->place,
        GAPS(held_words(eating, held, unit, words, sizeof words), column_name(eating->kitchen->library, published->bound.column),
             print_amount(adequate, sizeof adequate, published->least, unit)));
    finding_note(eating->findings, finding, WORDS_CAUTION, GAPS(library_text(published->owner, published->intake->low_words)));
}

static bool is_low(const struct eating *eating, const struct published *published)
{
    const struct amounts *total = &eating->sums->total;
    uint32_t nutrient = published->figure->nutrient;
    return published->figure->kind == INTAKE_ADEQUATE && nutrient == published->intake->low_nutrient && !published->figure->shown_only
        && amounts_complete(total, nutrient) && amount_compare(total->column[nutrient].high, published->least) < 0;
}

/* Never an advice to eat more: a caution. */
static void find_low(const struct eating *eating, struct published_set *set)
{
    uint32_t at = 0;
    while (at < set->count && !is_low(eating, &set->at[at]))
        at++;
    if (at == set->count)
        return;
    set->low = &set->at[at];
    tell_low(eating, set->low, eating->sums->total.column[set->low->figure->nutrient]);
}

bool day_find_published(const struct sums *sums, struct verdicts *verdicts, struct findings *findings)
{
    struct published_set *set = &verdicts->published;
    struct eating eating = { .sums = sums, .kitchen = sums->at.gathering->kitchen, .eater = sums->at.recipe->eater,
                             .verdicts = verdicts, .findings = findings, .who = &set->who };
    bool is_day = sums->at.recipe->is_day;
    set->count = 0;
    set->low = NULL;
    set->who = (struct who){ .count = 0 };
    if (!eating.eater || !eater_read(eating.kitchen, eating.eater, is_day, findings, &set->who) || !is_day)
        return true;
    bool found = find_figures(&eating, set);
    if (found)
        find_low(&eating, set);
    return found;
}

/* ---- what is said beside the day ------------------------------------------------------------------------------------------ */

static bool deferred_before(const struct published_set *set, uint32_t number)
{
    struct text defers = library_text(set->who.owners[number], set->who.persons[number]->defers);
    bool before = false;
    for (uint32_t i = 0; i < number; i++)
        before = before || text_equal(defers, library_text(set->who.owners[i], set->who.persons[i]->defers));
    return before;
}

uint32_t eater_cautions(const struct recipe *recipe, const struct verdicts *verdicts, struct eater_caution *cautions)
{
    uint32_t count = 0;
    const struct published_set *set = &verdicts->published;
    if (recipe->eater && recipe->eater->under_care)
        cautions[count++] = (struct eater_caution){
            text_of("Who eats this is under medical care: the numbers of their care team come first, before any printed here."),
            text_of("our own advice; no rule is cited") };
    for (uint32_t i = 0; i < set->who.count; i++) {
        const struct library *owner = set->who.owners[i];
        const struct person *person = set->who.persons[i];
        if (person->defers.length && !deferred_before(set, i))
            cautions[count++] = (struct eater_caution){ library_text(owner, person->defers), library_text(owner, person->defers_source) };
    }
    if (set->low)
        cautions[count++] = (struct eater_caution){ library_text(set->low->owner, set->low->intake->low_words),
                                                    library_text(set->low->owner, set->low->intake->low_source) };
    return count;
}
