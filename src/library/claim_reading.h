/* Shared by read_claims.c and read_conditions.c: a claim of a rule pack under construction. */
#ifndef QUERN_LIBRARY_CLAIM_READING_H
#define QUERN_LIBRARY_CLAIM_READING_H

#include <string.h>

#include "library/build.h"
#include "library/claims.h"

/* Its conditions follow one another. */
struct claim_reading {
    struct builder *builder;
    const struct rules *rules;
    const struct node *node;            /* the statement being read */
    uint32_t claim_kind;                /* of the `for` block around it, or NONE_INDEX */
    struct pack_text source;            /* of that block */
};

/* Says what is wrong with what stands at the span. */
void claim_complain(const struct claim_reading *reading, enum words_code code, struct span span);

/* Whether the words are these, or begin with them and a blank. */
bool claim_words_start(struct text words, const char *start);

/* The text in quotes with this number, from 0; empty where there is none. And what the block's `source` says. */
struct text claim_string(const struct builder *builder, const struct item *items, uint32_t number);
struct text claim_source_within(const struct builder *builder, const struct node *node);

/* Adds a group to the references: 1, or 0 after a finding at the span. */
uint32_t claim_add_group(struct claim_reading *reading, struct text name, struct span span);

/* The number of a kind of the rules, or NONE_INDEX. */
uint32_t claim_find_kind(const struct builder *builder, const struct rules *rules, struct text name);

/* The claim or term under this key, of those from `first_claim` on; NONE_INDEX where there is none. */
uint32_t claim_find(const struct builder *builder, struct text key, uint32_t first_claim);

/* Reads one claim, disclosure or mark of the rules with the number `number`. */
void read_claim(struct builder *builder, const struct node *node, struct rules *rules, uint32_t number, enum claim_use use);

#endif
