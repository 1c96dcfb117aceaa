/* What rules declare of claims, looked up: claims.c. All texts and numbers of what is found belong to `owner`. */
#ifndef QUERN_LIBRARY_CLAIMS_H
#define QUERN_LIBRARY_CLAIMS_H

#include "library/library.h"

/* What a claim's name is looked up by: `25% less sodium` is the claim `N% less sodium`, and 0.25 goes into `share`
 * (else 0). Returns the length of the key, as name_key does. */
uint32_t claim_key(struct text name, char *key, double *share);

/* The claim or term of the rules with this name, or NULL; and only a claim that a recipe may say. */
const struct claim *rules_claim(const struct library *owner, const struct rules *rules, struct text name, double *share);
const struct claim *rules_claim_said(const struct library *owner, const struct rules *rules, struct text name, double *share);

/* The kind of this name, or the usual one where the name is empty; NULL and NONE_INDEX where there is none. */
const struct claim_kind *rules_claim_kind(const struct library *owner, const struct rules *rules, struct text name, uint32_t *number);

/* The reference amount of a category, or NULL. */
const struct reference_amount *rules_reference_amount(const struct library *owner, const struct rules *rules, struct text name);

/* The millilitres of one of a unit where the rules say it; 0 where they do not. */
double rules_measure(const struct library *owner, const struct rules *rules, const struct unit *unit);

/* Claims and reference amounts of the rules with names near this one, best first; returns how many, at most `most`. */
uint32_t rules_near_claims(const struct library *owner, const struct rules *rules, struct text name, struct near_name *near, uint32_t most);
uint32_t rules_near_references(const struct library *owner, const struct rules *rules, struct text name, struct near_name *near, uint32_t most);

/* The columns that its claims ask for, a bit each. */
uint64_t rules_claim_columns(const struct library *owner, const struct rules *rules);

#endif
