/* Who eats: the words behind `for` become sexes, a state and ages. */
#include <math.h>
#include <string.h>

#include "judge/judge.h"

#define MONTHS 12

struct reading {
    const struct kitchen *kitchen;
    const struct eater *eater;
    struct findings *findings;
    struct who *who;
};

static void tell(const struct reading *reading, enum words_code code, const struct text *gaps, uint32_t gap_count)
{
    if (reading->findings)
        finding_add(reading->findings, code, reading->eater->place, gaps, gap_count);
}

/* ---- words ---------------------------------------------------------------------------------------------------------- */

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

/* ---- who it is ------------------------------------------------------------------------------------------------------ */

static void add_person(struct who *who, const struct library *owner, const struct person *person)
{
    bool again = false;
    for (uint32_t i = 0; i < who->count; i++)
        again = again || who->persons[i] == person;
    who->too_many = who->too_many || (!again && who->count == LIMIT_EATER_KINDS);
    if (again || who->too_many)
        return;
    who->owners[who->count] = owner;
    who->persons[who->count++] = person;
}

/* Who is a child by the age is one, whatever the words are: what defers for it is heard. */
static void add_by_age(const struct reading *reading)
{
    double age = reading->eater->age;
    for (const struct library *library = reading->kitchen->library; library; library = library->base) {
        for (uint32_t i = 0; i < library->persons_count; i++) {
            const struct person *person = &library->persons[i];
            bool by_age = person->sexes == SEX_ANY && person->needs_age && !library_text(library, person->state).length;
            if (by_age && person->defers.length && age >= person->low && age < person->high)
                add_person(reading->who, library, person);
        }
    }
}

/* All that the words say, also where one of them is no word for people: false then. */
static bool find_persons(const struct reading *reading)
{
    const struct eater *eater = reading->eater;
    bool good = true;
    for (uint32_t i = 0; i < eater->word_count; i++) {
        char kinds[400];
        const struct library *owner;
        const struct person *person = library_person(reading->kitchen->library, eater->words[i], &owner);
        if (person)
            add_person(reading->who, owner, person);
        else if (good && !eater->broken)
            tell(reading, FINDING_UNKNOWN_PERSON, GAPS(eater->words[i], list_kinds(reading->kitchen->library, kinds, sizeof kinds)));
        good = good && person;
    }
    if (good)
        add_by_age(reading);
    if (reading->who->too_many)
        tell(reading, FINDING_EATER_KINDS, GAPS(eater->written));
    return good && !reading->who->too_many && !eater->broken;
}

/* Whether the age can be that of each kind. */
static bool check_age(const struct reading *reading, bool ask_age)
{
    double age = reading->eater->age;
    for (uint32_t i = 0; i < reading->who->count; i++) {
        char said[48], ages[64];
        const struct person *person = reading->who->persons[i];
        struct text name = library_text(reading->who->owners[i], person->name);
        if (ask_age && age < 0 && person->needs_age) {
            tell(reading, FINDING_AGE_NEEDED, GAPS(name));
            return false;
        }
        if (age >= 0 && (age < person->low || age >= person->high)) {
            tell(reading, FINDING_AGE_OUT_OF_RANGE, GAPS(print_months(said, sizeof said, age), name, print_ages(ages, sizeof ages, person)));
            return false;
        }
    }
    return true;
}

/* Sexes, states and ages of all words together; false where nobody can be all of it. */
static bool join_words(const struct reading *reading)
{
    struct who *who = reading->who;
    bool good = true;
    double age = reading->eater->age;
    who->sexes = SEX_ANY;
    who->state = (struct text){ "", 0 };
    who->low = 0;
    who->high = INFINITY;
    for (uint32_t i = 0; i < who->count; i++) {
        const struct person *person = who->persons[i];
        struct text state = library_text(who->owners[i], person->state);
        who->sexes &= person->sexes;
        good = good && (!state.length || !who->state.length || text_equal(state, who->state));
        who->state = state.length ? state : who->state;
        who->low = amount_larger(who->low, person->usual_low);
        who->high = amount_smaller(who->high, person->usual_high);
    }
    good = good && who->sexes && (who->low < who->high || age >= 0);
    if (!good)
        tell(reading, FINDING_PERSON_CONFLICT, GAPS(reading->eater->written));
    if (age >= 0) {
        who->low = age;
        who->high = age + 1e-6;
    }
    return good;
}

bool eater_read(const struct kitchen *kitchen, const struct eater *eater, bool ask_age, struct findings *findings, struct who *who)
{
    struct reading reading = { kitchen, eater, findings, who };
    *who = (struct who){ .sexes = SEX_ANY };
    return find_persons(&reading) && (eater->word_count > 0 || eater->age >= 0) && check_age(&reading, ask_age) && join_words(&reading);
}

/* ---- what is for whom ----------------------------------------------------------------------------------------------- */

bool eater_takes_adult_values(const struct kitchen *kitchen, const struct eater *eater)
{
    struct who who;
    if (!eater)
        return true;
    bool takes = eater_read(kitchen, eater, false, NULL, &who) && !eater->under_care;
    for (uint32_t i = 0; i < who.count; i++)
        takes = takes && who.persons[i]->defers.length == 0;
    return takes;
}

const struct daily_value *recipe_daily_value(const struct kitchen *kitchen, const struct recipe *recipe, const struct verdicts *verdicts, uint32_t nutrient)
{
    bool takes = !recipe || eater_takes_adult_values(kitchen, recipe->eater);
    for (uint32_t i = 0; verdicts && i < verdicts->count; i++)
        takes = takes && !verdicts->at[i].bound->by_clinician;
    takes = takes && !(verdicts && verdicts->published.count);
    return takes ? rules_daily_value(kitchen->rules_owner, kitchen->rules, nutrient) : NULL;
}

struct text kitchen_daily_name(const struct kitchen *kitchen)
{
    struct text name = kitchen->rules ? library_text(kitchen->rules_owner, kitchen->rules->daily_name) : text_of("");
    return name.length ? name : text_of("daily value");
}

/* False where the library names nobody. */
static bool find_usual(const struct kitchen *kitchen, struct eater *usual)
{
    const struct library *owner;
    const struct person *person = library_policy_person(kitchen->library, &owner);
    *usual = (struct eater){ .age = -1, .word_count = 1 };
    if (person)
        usual->words[0] = library_text(owner, person->name);
    return person != NULL;
}

bool policy_is_for(const struct kitchen *kitchen, const struct policy *policy, const struct eater *eater)
{
    struct eater usual;
    struct who meant, who;
    if (!eater || (!policy->eater && !find_usual(kitchen, &usual)))
        return true;
    const struct eater *said = policy->eater ? policy->eater : &usual;
    bool known = eater_read(kitchen, eater, false, NULL, &who) && eater_read(kitchen, said, false, NULL, &meant);
    if (!known)
        return true;                                    /* what is said of it counts, rather than nothing */
    bool state = !meant.state.length || text_equal(meant.state, who.state);
    return state && (meant.sexes & who.sexes) && meant.low < who.high && who.low < meant.high && (!said->under_care || eater->under_care);
}

struct text policy_person(const struct kitchen *kitchen, const struct policy *policy, char *storage, size_t size)
{
    struct eater usual;
    if (policy->eater)
        return policy->eater->written;
    int length = find_usual(kitchen, &usual) ? snprintf(storage, size, "for %.*s", (int)usual.words[0].length, usual.words[0].bytes) : 0;
    return (struct text){ storage, (uint32_t)length };
}

void kitchen_check_policies(struct kitchen *kitchen)
{
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
        struct gathering *gathering = &kitchen->gatherings[i];
        struct who who;
        for (uint32_t j = 0; j < gathering->policies_count; j++) {
            if (gathering->policies[j].eater)
                eater_read(kitchen, gathering->policies[j].eater, false, &gathering->findings, &who);
        }
    }
}
