/* Which foods and lines bring most, for programs: docs/schema/rank-2.json. Figures are not rounded. */
#include "output/json.h"
#include "output/rank.h"

/* What is brought, against the whole: by itself, and with all before it. */
static void add_share(struct showing *showing, cJSON *object, double part, double *together, double whole)
{
    *together += part;
    json_plain_number(showing, object, "share", whole > 0 ? part / whole : 0);
    json_plain_number(showing, object, "together", whole > 0 ? *together / whole : 0);
}

static void add_amount(struct showing *showing, cJSON *object, const struct rank_amount *amount, bool complete)
{
    json_range(showing, object, "total", amount->total, complete);
    json_range(showing, object, "per_serving", amount->serving, complete);
}

static void add_line(struct showing *showing, cJSON *object, const struct rank_line *line)
{
    json_text(showing, object, "text", line->text);
    json_text(showing, object, "recipe", line->recipe);
    if (line->part.length)
        json_text(showing, object, "part", line->part);
    json_text(showing, object, "file", line->file);
    json_kept(showing, cJSON_AddNumberToObject(object, "line", line->line));
}

static void add_foods(struct showing *showing, cJSON *object, const struct ranking *ranking)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "foods"));
    double together = 0;
    uint32_t shown = rank_shown(ranking->food_count, ranking->limit);
    for (uint32_t i = 0; i < shown; i++) {
        const struct rank_food *food = &ranking->foods[i];
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "food", food->name);
        json_text(showing, one, "source", food->source);
        json_kept(showing, cJSON_AddNumberToObject(one, "lines", food->lines));
        add_amount(showing, one, &food->amount, !food->unknown);
        add_share(showing, one, food->amount.total.best, &together, ranking->whole.total.best);
        cJSON_AddItemToArray(list, one);
    }
    json_kept(showing, cJSON_AddNumberToObject(object, "more_foods", ranking->food_count - shown));
}

static void add_lines(struct showing *showing, cJSON *object, const struct ranking *ranking)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "lines"));
    double together = 0;
    uint32_t shown = rank_shown(ranking->line_count, ranking->limit);
    for (uint32_t i = 0; i < shown; i++) {
        const struct rank_line *line = &ranking->lines[i];
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        add_line(showing, one, line);
        add_amount(showing, one, &line->amount, !line->unknown);
        add_share(showing, one, line->amount.serving.best, &together, ranking->whole.serving.best);
        cJSON_AddItemToArray(list, one);
    }
    json_kept(showing, cJSON_AddNumberToObject(object, "more_lines", ranking->lines_seen - shown));
}

static void add_unknown(struct showing *showing, cJSON *object, const struct ranking *ranking)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "unknown"));
    for (uint32_t i = 0; i < ranking->unknown_kept; i++) {
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        add_line(showing, one, &ranking->unknown[i]);
        cJSON_AddItemToArray(list, one);
    }
    json_kept(showing, cJSON_AddNumberToObject(object, "unknown_lines", ranking->unknown_count));
}

/* Limits and goals of the nutrient, broken ones first. */
static void add_limits(struct showing *showing, cJSON *object, const struct ranking *ranking)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "limits"));
    uint32_t shown = rank_limits_shown(ranking);
    for (uint32_t i = 0; i < shown; i++) {
        const struct rank_limit *limit = &ranking->limits[i];
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "recipe", limit->recipe);
        json_kept(showing, cJSON_AddStringToObject(one, "kind", limit->is_goal ? "goal" : "limit"));
        json_text(showing, one, "text", limit->limit);
        json_range(showing, one, "value", limit->holds, limit->complete);
        json_kept(showing, cJSON_AddStringToObject(one, "outcome", outcome_name(limit->outcome)));
        cJSON_AddItemToArray(list, one);
    }
    uint32_t all = rank_limits_open(ranking) + ranking->limits_seen[STANDING_KEPT];
    json_kept(showing, cJSON_AddNumberToObject(object, "more_limits", all - shown));
    json_kept(showing, cJSON_AddNumberToObject(object, "limits_kept", ranking->limits_seen[STANDING_KEPT]));
}

void rank_json(struct ranking *ranking, struct telling *telling)
{
    struct kitchen none = { .allocator = telling->allocator };          /* those that were read are closed */
    struct showing showing = { .kitchen = &none, .writer = &telling->writer };
    cJSON *object = json_kept(&showing, cJSON_CreateObject());
    json_kept(&showing, cJSON_AddStringToObject(object, "quern", quern_version()));
    json_kept(&showing, cJSON_AddNumberToObject(object, "schema", JSON_VERSION));
    json_kept(&showing, cJSON_AddStringToObject(object, "of", ranking->wanted->day ? "day" : "recipes"));
    json_text(&showing, object, "name", ranking->name);
    json_text(&showing, object, "nutrient", ranking->nutrient_key);
    json_text(&showing, object, "unit", ranking->unit);
    json_kept(&showing, cJSON_AddNumberToObject(object, "recipes", ranking->recipes));
    json_kept(&showing, cJSON_AddNumberToObject(object, "inside_others", ranking->inside));
    json_kept(&showing, cJSON_AddNumberToObject(object, "without_servings", ranking->whole_pots));
    json_kept(&showing, cJSON_AddNumberToObject(object, "left_out", ranking->left_out));
    add_amount(&showing, object, &ranking->whole, ranking_is_complete(ranking));
    add_limits(&showing, object, ranking);
    add_foods(&showing, object, ranking);
    add_lines(&showing, object, ranking);
    add_unknown(&showing, object, ranking);
    json_told_cautions(&showing, object, &ranking->cautions);
    json_print(&showing, &telling->writer, object);
    writer_add(&telling->writer, text_of("\n"));
}
