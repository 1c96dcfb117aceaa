/* Shared by the files of the JSON report. A NULL anywhere means that memory failed; then nothing of the whole is printed. */
#ifndef QUERN_OUTPUT_JSON_H
#define QUERN_OUTPUT_JSON_H

#include <cjson/cJSON.h>

#include "output/figures.h"
#include "output/output.h"

/* The item; `json_failed` is set where there is none. */
cJSON *json_kept(struct showing *showing, cJSON *item);
void json_text(struct showing *showing, cJSON *object, const char *key, struct text text);

/* A number; null for what is not finite. */
void json_plain_number(struct showing *showing, cJSON *object, const char *key, double number);

/* Best and high are null where it is not complete; what is infinite is null. */
void json_range(struct showing *showing, cJSON *object, const char *key, struct range range, bool complete);

/* All nutrients, keyed by the library's names. */
void json_amounts(struct showing *showing, cJSON *object, const char *key, const struct amounts *amounts);

/* Name, file and line of what stands there. */
void json_head(struct showing *showing, cJSON *object, struct text name, struct place place);

/* The lists that recipes and days share: lines (of a day with their meals), limits, findings, cautions. */
void json_lists(struct showing *showing, cJSON *object, const struct report *report);

/* The key of a column's nutrient. */
struct text json_column_key(const struct library *library, uint32_t column);

/* `cautions`, each once, of a report of several recipes or foods. */
struct told_cautions;
void json_told_cautions(struct showing *showing, cJSON *object, const struct told_cautions *cautions);

/* Prints it and frees it. */
void json_print(struct showing *showing, struct writer *writer, cJSON *object);

/* ---- json_findings.c */
cJSON *json_make_finding(struct showing *showing, const struct finding *finding);

/* A limit or a goal with its outcome, added to the list. */
cJSON *json_limit(struct showing *showing, cJSON *list, const struct verdict *verdict);

/* ---- json_days.c: what lines have of days: the meal, and servings as they are eaten */
void json_eater(struct showing *showing, cJSON *object, const struct eater *eater);      /* whom it is for; null: not said */
void json_line_of_day(struct showing *showing, cJSON *object, const struct sums *sums, const struct line_amount *amount);

/* ---- json_packets.c: `packets` and `cautions` of a recipe or a day */
void json_packets(struct showing *showing, cJSON *object, const struct sums *sums);
void json_caution(struct showing *showing, cJSON *list, const struct caution_told *told);
void json_cautions(struct showing *showing, cJSON *object, const struct report *report);

/* ---- json_claims.c: the claims that are said of a recipe, as the list `claims` of the object. */
void json_add_claims(struct showing *showing, cJSON *object, const struct sums *sums);

#endif
