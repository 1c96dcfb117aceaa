/* A claim that the rules do not define: which names lie near, what they do define, and which rules define it. */
#include "judge/judge.h"

#define LISTED_BYTES 700                /* of the names of all claims in one note */

/* The name as a recipe would say it: `N% less sodium` with the share that was said. */
static struct text said_name(struct text written, double share, char *storage, size_t size)
{
    if (share <= 0 || written.length < 2 || written.bytes[0] != 'N' || written.bytes[1] != '%')
        return written;
    int length = snprintf(storage, size, "%g%.*s", share * 100, (int)written.length - 1, written.bytes + 1);
    return (struct text){ storage, length < (int)size ? (uint32_t)length : (uint32_t)size - 1 };
}

static uint32_t note_near(const struct claim_told *told, struct place place, struct findings *findings, struct finding *finding)
{
    struct near_name near[5];
    char key[KEY_BYTES], storage[200];
    double share;
    const struct kitchen *kitchen = told->sums->at.gathering->kitchen;
    uint32_t count = rules_near_claims(kitchen->rules_owner, kitchen->rules, told->said->name, near, COUNT_OF(near));
    claim_key(told->said->name, key, &share);
    for (uint32_t i = 0; i < count; i++) {
        struct text name = said_name(library_text(near[i].library, near[i].name->written), share, storage, sizeof storage);
        finding_note(findings, finding, WORDS_NEAR_NAME, GAPS(name));
        if (!told->policy)
            finding_fix(findings, finding, place, name, WORDS_FIX_NAME, GAPS(name));
    }
    return count;
}

/* All that the rules define, by their first names. */
static void note_all(const struct kitchen *kitchen, struct findings *findings, struct finding *finding)
{
    char list[LISTED_BYTES];
    size_t used = 0;
    const struct rules *rules = kitchen->rules;
    struct text rules_name = library_text(kitchen->rules_owner, rules->name);
    for (uint32_t i = 0; i < rules->claim_count; i++) {
        const struct claim *claim = &kitchen->rules_owner->claims[rules->first_claim + i];
        struct text name = library_text(kitchen->rules_owner, claim->name);
        if (claim->use != CLAIM_SAID)
            continue;
        if (used + name.length + 8 > sizeof list) {
            used += (size_t)snprintf(list + used, sizeof list - used, ", …");
            break;
        }
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%.*s", used ? ", " : "", (int)name.length, name.bytes);
    }
    if (used)
        finding_note(findings, finding, WORDS_CLAIM_ALL, GAPS(rules_name, (struct text){ list, (uint32_t)used }));
    else
        finding_note(findings, finding, WORDS_CLAIM_NONE, GAPS(rules_name));
}

void claim_tell_unknown(const struct claim_told *told, struct place place, struct findings *findings)
{
    double share;
    const struct kitchen *kitchen = told->sums->at.gathering->kitchen;
    struct finding *finding = finding_add(findings, FINDING_UNKNOWN_CLAIM, place,
        GAPS(told->said->name, kitchen->rules ? library_text(kitchen->rules_owner, kitchen->rules->name) : text_of("")));
    if (kitchen->rules && note_near(told, place, findings, finding) == 0)
        note_all(kitchen, findings, finding);
    for (const struct library *library = kitchen->library; library; library = library->base) {
        for (uint32_t i = 0; i < library->rules_count; i++) {
            if (rules_claim_said(library, &library->rules[i], told->said->name, &share))
                finding_note(findings, finding, WORDS_CLAIM_ELSEWHERE, GAPS(library_text(library, library->rules[i].name)));
        }
    }
}
