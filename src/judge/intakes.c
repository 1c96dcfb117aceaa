/* What is published for who eats a day. The words of the head become sexes, a state and ages; a figure that may be
 * meant counts, and of several the strictest is kept, the loosest broken. */
#include <math.h>
#include <string.h>

#include "judge/judge.h"

#define MONTHS 12

struct eating {
    const struct sums *sums;
    const struct kitchen *kitchen;
    const struct eater *eater;
    struct verdicts *verdicts;
    struct findings *findings;
    uint32_t sexes;
    struct text state;
    double low, high;                   /* months */
    bool by_rules;                      /* held to the table of the rules that the kitchen follows */
};

static void tell(const struct eating *eating, enum words_code code, const struct text *gaps, uint32_t gap_count)
{
    if (eating->findings)
        finding_add(eating->findings, code, eating->eater->place, gaps, gap_count);
}

/* ---- who it is ---------------------------------------------------------------------------------------------------- */

static struct text print_months(char *storage, size_t size, double months)
{
    int length = months < 2 * MONTHS ? snprintf(storage, size, "%g months", months) : snprintf(storage, size, "%g years", months / MONTHS);
    return (struct text){ storage, (uint32_t)length };
}

static struct text print_ages(char *storage, size_t size, const struct person *person)
{
    bool months = person->high <= MONTHS;
    int length = months ? snprintf(storage, size, "%g to %g months", person->low, person->high - 1)
                        : snprintf(storage, size, "%g to %g years", person->low / MONTHS, person->high / MONTHS - 1);
    return (struct text){ storage, (uint32_t)length };
}

/* `adult, woman, man, …`: each kind by its first name. */
static struct text list_kinds(const struct library *library, char *storage, size_t size)
{
    size_t used = 0;
    for (; library; library = library->base) {
        for (uint32_t i = 0; i < library->persons_count && used < size; i++) {
            struct text name = library_text(library, library->persons[i].name);
            int length = snprintf(storage + used, size - used, "%s%.*s", used ? ", " : "", (int)name.length, name.bytes);
            used += length > 0 ? (size_t)length : 0;
        }
    }
    return (struct text){ storage, (uint32_t)(used < size ? used : size - 1) };
}

static void add_person(struct published_set *set, const struct library *owner, const struct person *person)
{
    bool again = false;
    for (uint32_t i = 0; i < set->person_count; i++)
        again = again || set->persons[i] == person;
    if (again || set->person_count == COUNT_OF(set->persons))
        return;
    set->person_owners[set->person_count] = owner;
    set->persons[set->person_count++] = person;
}

/* Who is a child by the age is one, whatever the words are: what defers for it is heard. */
static void add_by_age(const struct eating *eating, struct published_set *set)
{
    double age = eating->eater->age;
    for (const struct library *library = eating->kitchen->library; library; library = library->base) {
        for (uint32_t i = 0; i < library->persons_count; i++) {
            const struct person *person = &library->persons[i];
            bool by_age = person->sexes == SEX_ANY && person->needs_age && !library_text(library, person->state).length;
            if (by_age && person->defers.length && age >= person->low && age < person->high)
                add_person(set, library, person);
        }
    }
}

/* All that the words say, also where one of them is no word for people: false then. */
static bool find_persons(const struct eating *eating, struct published_set *set)
{
    bool good = true;
    for (uint32_t i = 0; i < eating->eater->word_count; i++) {
        char kinds[400];
        const struct library *owner;
        const struct person *person = library_person(eating->kitchen->library, eating->eater->words[i], &owner);
        if (person)
            add_person(set, owner, person);
        else if (good && !eating->eater->broken)
            tell(eating, FINDING_UNKNOWN_PERSON, GAPS(eating->eater->words[i], list_kinds(eating->kitchen->library, kinds, sizeof kinds)));
        good = good && person;
    }
    if (good)
        add_by_age(eating, set);
    return good && !eating->eater->broken;
}

/* Sexes and states of all words together; false where nobody can be all of it. */
static bool join_words(struct eating *eating, const struct published_set *set)
{
    bool good = true;
    eating->sexes = SEX_ANY;
    eating->state = (struct text){ "", 0 };
    eating->low = 0;
    eating->high = INFINITY;
    for (uint32_t i = 0; i < set->person_count; i++) {
        const struct person *person = set->persons[i];
        struct text state = library_text(set->person_owners[i], person->state);
        eating->sexes &= person->sexes;
        good = good && (!state.length || !eating->state.length || text_equal(state, eating->state));
        eating->state = state.length ? state : eating->state;
        eating->low = amount_larger(eating->low, person->usual_low);
        eating->high = amount_smaller(eating->high, person->usual_high);
    }
    good = good && eating->sexes && (eating->low < eating->high || eating->eater->age >= 0);
    if (!good)
        tell(eating, FINDING_PERSON_CONFLICT, GAPS(eating->eater->written));
    return good;
}

static bool take_age(struct eating *eating, const struct published_set *set)
{
    double age = eating->eater->age;
    for (uint32_t i = 0; i < set->person_count; i++) {
        char said[48], ages[64];
        const struct person *person = set->persons[i];
        struct text name = library_text(set->person_owners[i], person->name);
        if (age < 0 && person->needs_age) {
            tell(eating, FINDING_AGE_NEEDED, GAPS(name));
            return false;
        }
        if (age >= 0 && (age < person->low || age >= person->high)) {
            tell(eating, FINDING_AGE_OUT_OF_RANGE, GAPS(print_months(said, sizeof said, age), name, print_ages(ages, sizeof ages, person)));
            return false;
        }
    }
    if (age >= 0) {
        eating->low = age;
        eating->high = age + 1e-6;
    }
    return true;
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
    return intake_is_for(owner, figure, eating->sexes, eating->state, eating->low, eating->high);
}

/* Whether the table of the rules that the kitchen follows has a row for who eats. */
static bool rules_cover(const struct eating *eating)
{
    bool cover = false;
    for (const struct library *library = eating->kitchen->library; library; library = library->base) {
        for (uint32_t i = 0; i < library->intakes_count; i++) {
            const struct intake *intake = &library->intakes[i];
            for (uint32_t j = 0; j < intake->figure_count && has_rules(eating, library, intake); j++)
                cover = cover || is_meant(eating, library, &library->intake_figures[intake->first_figure + j]);
        }
    }
    return cover;
}

/* The table of the rules that the kitchen follows; where they have no row for who eats, those that belong to no rules. */
static bool is_held(const struct eating *eating, const struct library *owner, const struct intake *intake)
{
    return eating->by_rules ? has_rules(eating, owner, intake) : intake->rules.length == 0;
}

/* The entry for figures of this kind in this table, made when there is none yet; NULL when there are too many. */
static struct published *entry_for(struct published_set *set, const struct library *owner, const struct intake *intake,
                                   const struct intake_figure *figure)
{
    for (uint32_t i = 0; i < set->count; i++) {
        struct published *at = &set->at[i];
        if (at->intake == intake && at->figure->nutrient == figure->nutrient && at->figure->kind == figure->kind)
            return at;
    }
    if (set->count == PUBLISHED_MOST)
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
    bool judged = figure->kind != INTAKE_ADEQUATE || figure->is_goal;
    if (!judged || figure->shown_only || !is_held(eating, published->owner, published->intake))
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

static void find_figures(struct eating *eating, struct published_set *set)
{
    bool held = false;
    eating->by_rules = rules_cover(eating);
    for (const struct library *library = eating->kitchen->library; library; library = library->base) {
        for (uint32_t i = 0; i < library->intakes_count; i++) {
            const struct intake *intake = &library->intakes[i];
            for (uint32_t j = 0; j < intake->figure_count; j++) {
                const struct intake_figure *figure = &library->intake_figures[intake->first_figure + j];
                struct published *entry = is_meant(eating, library, figure) ? entry_for(set, library, intake, figure) : NULL;
                if (!entry)
                    continue;
                entry->least = amount_smaller(entry->least, figure->amount);
                entry->most = amount_larger(entry->most, figure->amount);
                held = held || is_held(eating, library, intake);
            }
        }
    }
    if (!held)
        tell(eating, FINDING_NO_INTAKE, GAPS(eating->eater->written));
    for (uint32_t i = 0; i < set->count; i++)
        close_entry(eating, &set->at[i]);
}

/* ---- less than is adequate ------------------------------------------------------------------------------------------- */

static void tell_low(const struct eating *eating, const struct published *published, struct range held)
{
    char high[48], adequate[48];
    struct text unit = published->bound.unit;
    if (!eating->findings)
        return;
    struct finding *finding = finding_add(eating->findings, FINDING_LOW_SODIUM, eating->eater->place,
        GAPS(print_amount(high, sizeof high, held.high, unit), column_name(eating->kitchen->library, published->bound.column),
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

void day_find_published(const struct sums *sums, struct verdicts *verdicts, struct findings *findings)
{
    struct published_set *set = &verdicts->published;
    struct eating eating = { .sums = sums, .kitchen = sums->at.gathering->kitchen, .eater = sums->at.recipe->eater,
                             .verdicts = verdicts, .findings = findings };
    set->count = set->person_count = 0;
    set->low = NULL;
    if (!eating.eater || !find_persons(&eating, set) || (eating.eater->word_count == 0 && eating.eater->age < 0) || !take_age(&eating, set) || !join_words(&eating, set) || !take_age(&eating, set))
        return;
    find_figures(&eating, set);
    find_low(&eating, set);
}

/* ---- what is said beside the day ------------------------------------------------------------------------------------------ */

static bool deferred_before(const struct published_set *set, uint32_t number)
{
    struct text defers = library_text(set->person_owners[number], set->persons[number]->defers);
    bool before = false;
    for (uint32_t i = 0; i < number; i++)
        before = before || text_equal(defers, library_text(set->person_owners[i], set->persons[i]->defers));
    return before;
}

uint32_t eater_cautions(const struct recipe *day, const struct verdicts *verdicts, struct eater_caution *cautions)
{
    uint32_t count = 0;
    const struct published_set *set = &verdicts->published;
    if (day->eater && day->eater->under_care)
        cautions[count++] = (struct eater_caution){
            text_of("Who eats this day is under care: the figures of their clinician or dietitian hold, and no published one."),
            text_of("our own advice; no rule is cited") };
    for (uint32_t i = 0; i < set->person_count; i++) {
        const struct library *owner = set->person_owners[i];
        const struct person *person = set->persons[i];
        if (person->defers.length && !deferred_before(set, i))
            cautions[count++] = (struct eater_caution){ library_text(owner, person->defers), library_text(owner, person->defers_source) };
    }
    if (set->low)
        cautions[count++] = (struct eater_caution){ library_text(set->low->owner, set->low->intake->low_words),
                                                    library_text(set->low->owner, set->low->intake->low_source) };
    return count;
}
