/* Looking up what a rule pack declares of claims. */
#include <stdlib.h>
#include <string.h>

#include "library/claims.h"

#define CLAIM_NAME_BYTES 200

uint32_t claim_key(struct text name, char *key, double *share)
{
    char pattern[CLAIM_NAME_BYTES];
    uint32_t digits = 0;
    *share = 0;
    while (digits < name.length && ((name.bytes[digits] >= '0' && name.bytes[digits] <= '9') || name.bytes[digits] == '.'))
        digits++;
    uint32_t percent = digits;
    while (percent < name.length && name.bytes[percent] == ' ')
        percent++;
    if (digits == 0 || digits > 12 || percent == name.length || name.bytes[percent] != '%' || name.length - percent + 1 > sizeof pattern)
        return name_key_of(name, false, key);
    memcpy(pattern, name.bytes, digits);
    pattern[digits] = '\0';
    *share = strtod(pattern, NULL) / 100;
    pattern[0] = 'N';
    memcpy(pattern + 1, name.bytes + percent, name.length - percent);
    return name_key_of((struct text){ pattern, name.length - percent + 1 }, false, key);
}

/* The number under the key within the rules' own stretch of a section. */
static uint32_t find_within(const struct library *owner, enum name_space space, struct text key, uint32_t first, uint32_t count)
{
    const struct name *name = NULL;
    while ((name = library_find(owner, space, key, name))) {
        if (name->index >= first && name->index - first < count)
            return name->index;
    }
    return NONE_INDEX;
}

const struct claim *rules_claim(const struct library *owner, const struct rules *rules, struct text name, double *share)
{
    char key[KEY_BYTES];
    struct text found = { key, claim_key(name, key, share) };
    uint32_t number = rules ? find_within(owner, SPACE_CLAIM, found, rules->first_claim, rules->claim_count) : NONE_INDEX;
    return number == NONE_INDEX ? NULL : &owner->claims[number];
}

const struct claim *rules_claim_said(const struct library *owner, const struct rules *rules, struct text name, double *share)
{
    const struct claim *claim = rules_claim(owner, rules, name, share);
    return claim && claim->use == CLAIM_SAID ? claim : NULL;
}

const struct reference_amount *rules_reference_amount(const struct library *owner, const struct rules *rules, struct text name)
{
    char key[KEY_BYTES];
    struct text found = { key, name_key_of(name, false, key) };
    uint32_t number = rules ? find_within(owner, SPACE_REFERENCE, found, rules->first_reference_amount, rules->reference_amount_count) : NONE_INDEX;
    return number == NONE_INDEX ? NULL : &owner->reference_amounts[number];
}

uint32_t rules_near_claims(const struct library *owner, const struct rules *rules, struct text name, struct near_name *near, uint32_t most)
{
    char key[KEY_BYTES];
    double share;
    struct text wanted = { key, claim_key(name, key, &share) };
    return rules ? library_near_within(owner, SPACE_CLAIM, wanted, rules->first_claim, rules->first_claim + rules->claim_count, near, most) : 0;
}

uint32_t rules_near_references(const struct library *owner, const struct rules *rules, struct text name, struct near_name *near, uint32_t most)
{
    uint32_t first = rules ? rules->first_reference_amount : 0;
    return rules ? library_near_within(owner, SPACE_REFERENCE, name, first, first + rules->reference_amount_count, near, most) : 0;
}

const struct claim_kind *rules_claim_kind(const struct library *owner, const struct rules *rules, struct text name, uint32_t *number)
{
    char key[KEY_BYTES], other[KEY_BYTES];
    struct text found = { key, name_key_of(name, false, key) };
    for (uint32_t i = 0; rules && i < rules->claim_kind_count; i++) {
        const struct claim_kind *kind = &owner->claim_kinds[rules->first_claim_kind + i];
        struct text key_of = { other, name_key_of(library_text(owner, kind->name), false, other) };
        *number = i;
        if (name.length ? text_equal(key_of, found) : kind->is_usual != 0)
            return kind;
    }
    *number = NONE_INDEX;
    return NULL;
}

double rules_measure(const struct library *owner, const struct rules *rules, const struct unit *unit)
{
    char key[KEY_BYTES];
    for (uint32_t i = 0; rules && i < rules->measure_count; i++) {
        const struct household_measure *measure = &owner->measures[rules->first_measure + i];
        struct text found = { key, name_key_of(library_text(owner, measure->unit), false, key) };
        if (library_unit(owner, found, NULL) == unit)
            return measure->ml;
    }
    return 0;
}

uint64_t rules_claim_columns(const struct library *owner, const struct rules *rules)
{
    uint64_t columns = (uint64_t)1 << owner->mass_column;
    for (uint32_t i = 0; rules && i < rules->claim_count; i++) {
        const struct claim *claim = &owner->claims[rules->first_claim + i];
        for (uint32_t j = 0; j < claim->condition_count; j++) {
            const struct condition *condition = &owner->conditions[claim->first_condition + j];
            if (condition->kind != CONDITION_LIMIT && condition->kind != CONDITION_LESS)
                continue;
            columns |= (uint64_t)1 << condition->column;
            if (condition->column >= owner->nutrient_total || condition->flags & CONDITION_ADDED)
                columns |= (((uint64_t)1 << ORIGIN_COUNT) - 1) << owner->origin_column;
        }
    }
    return columns;
}
