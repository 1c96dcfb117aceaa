/* Shared by the files that make JSON. */
#ifndef QUERN_OUTPUT_JSON_H
#define QUERN_OUTPUT_JSON_H

#include <cjson/cJSON.h>

#include "output/output.h"

/* Passes an item on; where memory failed it is NULL, and nothing of the whole is printed then. */
cJSON *json_kept(struct showing *showing, cJSON *item);

/* Adds a text under a key; what is no UTF-8 in it becomes replacement characters. */
void json_text(struct showing *showing, cJSON *object, const char *key, struct text text);

/* Prints the whole to the writer, without blanks, and frees it. */
void json_print(struct showing *showing, struct writer *writer, cJSON *json);

/* json_claims.c: the claims that are said of a recipe, as the list `claims` of the object. */
void json_add_claims(struct showing *showing, cJSON *object, const struct sums *sums);

#endif
