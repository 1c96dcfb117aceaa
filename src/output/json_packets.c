/* Packets and cautions in JSON. */
#include <string.h>

#include "output/json.h"
#include "output/told.h"

/* ---- packets ------------------------------------------------------------------------------------------------------- */

static void add_listed(struct showing *showing, cJSON *packet, struct food_at label)
{
    const struct library *library = showing->kitchen->library, *owner;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(packet, "lists"));
    for (uint32_t i = 0; i < label.food->listed_count; i++) {
        const struct listed *listed = &label.library->listed[label.food->first_listed + i];
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "text", library_text(label.library, listed->written));
        json_text(showing, one, "kind", library_text(label.library, listed->kind));
        const struct nutrient *nutrient = listed->nutrient == NONE_INDEX ? NULL : library_nutrient_at(library, listed->nutrient, &owner);
        if (nutrient)
            json_text(showing, one, "brings", library_text(owner, nutrient->name));
        cJSON_AddItemToArray(list, one);
    }
}

/* Per serving of the label: what its rounding allows, and what the law does; null where nothing is known above. */
static void add_figures(struct showing *showing, cJSON *packet, struct food_at label)
{
    const struct library *library = showing->kitchen->library, *owner;
    cJSON *figures = json_kept(showing, cJSON_AddObjectToObject(packet, "per_serving"));
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        char key[80];
        const struct nutrient *nutrient = library_nutrient_at(library, i, &owner);
        struct text written = library_text(owner, nutrient->key);
        if (!(label.food->known >> i & 1) || written.length >= sizeof key)
            continue;
        memcpy(key, written.bytes, written.length);
        key[written.length] = '\0';
        cJSON *figure = json_kept(showing, cJSON_AddObjectToObject(figures, key));
        json_range(showing, figure, "by_rounding", label.library->values[label.food->values + i], true);
        if (showing->kitchen->tolerance)
            json_range(showing, figure, "by_law", label.library->values[label.food->tolerated + i], !(label.food->open >> i & 1));
        struct text source = showing->kitchen->tolerance ? kitchen_tolerance_source(showing->kitchen, i) : text_of("");
        if (source.length)
            json_text(showing, figure, "by_law_source", source);
    }
}

static void add_packet(struct showing *showing, cJSON *list, struct food_at label)
{
    char date[16];
    const struct kitchen *kitchen = showing->kitchen;
    cJSON *packet = json_kept(showing, cJSON_CreateObject());
    json_text(showing, packet, "name", library_text(label.library, label.food->name));
    if (label.food->seen)
        json_text(showing, packet, "seen", day_print(label.food->seen, date, sizeof date));
    if (label.food->seen && kitchen->today >= label.food->seen)
        json_kept(showing, cJSON_AddNumberToObject(packet, "days_old", kitchen->today - label.food->seen));
    add_figures(showing, packet, label);
    add_listed(showing, packet, label);
    cJSON_AddItemToArray(list, packet);
}

void json_packets(struct showing *showing, cJSON *object, const struct sums *sums)
{
    json_kept(showing, cJSON_AddBoolToObject(object, "tolerance", showing->kitchen->tolerance));
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "packets"));
    for (uint32_t i = 0; i < sums->line_count; i++) {
        struct food_at label = line_label(&sums->lines[i]);
        if (label.food && !label_told_before(sums, i, label.food))
            add_packet(showing, list, label);
    }
}

/* ---- cautions ------------------------------------------------------------------------------------------------------ */

struct json_list {
    struct showing *showing;
    cJSON *list;
};

void json_caution(struct showing *showing, cJSON *list, const struct caution_told *told)
{
    cJSON *one = json_kept(showing, cJSON_CreateObject());
    json_text(showing, one, "text", told->words);
    json_text(showing, one, "source", told->source);
    if (told->exactly.length)
        json_text(showing, one, "exactly", told->exactly);
    if (told->because.length)
        json_text(showing, one, "because", told->because);
    cJSON_AddItemToArray(list, one);
}

static void add_caution(void *context, const struct caution_told *told)
{
    struct json_list *to = context;
    json_caution(to->showing, to->list, told);
}

void json_cautions(struct showing *showing, cJSON *object, const struct report *report)
{
    struct json_list list = { showing, json_kept(showing, cJSON_AddArrayToObject(object, "cautions")) };
    report_cautions(showing->kitchen, report, add_caution, &list);
}

void json_told_cautions(struct showing *showing, cJSON *object, const struct told_cautions *cautions)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "cautions"));
    for (uint32_t i = 0; i < cautions->count; i++) {
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "text", cautions->at[i].words);
        json_text(showing, one, "source", cautions->at[i].source);
        if (cautions->at[i].because.length)
            json_text(showing, one, "because", cautions->at[i].because);
        cJSON_AddItemToArray(list, one);
    }
}
