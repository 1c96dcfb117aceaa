/* Shared by the files of the JSON report. A NULL anywhere means that memory failed; then nothing of the whole is
 * printed. */
#ifndef QUERN_OUTPUT_JSON_H
#define QUERN_OUTPUT_JSON_H

#include <cjson/cJSON.h>

#include "output/output.h"

/* ---- json.c */

/* Gives the item back, and notes where it is none. */
cJSON *json_kept(struct showing *showing, cJSON *item);

/* Adds a text (what is no UTF-8 in it is replaced), or a range whose best and high are null where it is incomplete. */
void json_text(struct showing *showing, cJSON *object, const char *key, struct text text);
void json_range(struct showing *showing, cJSON *object, const char *key, struct range range, bool complete);

/* ---- json_packets.c: `packets` and `cautions` of a recipe */
void json_packets(struct showing *showing, cJSON *object, const struct sums *sums);
void json_cautions(struct showing *showing, cJSON *object, const struct sums *sums);

#endif
