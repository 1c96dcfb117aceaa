/* Two of anything beside each other, for programs: docs/schema/compare-2.json. Figures are not rounded. */
#include <math.h>
#include <string.h>

#include "output/compare.h"
#include "output/json.h"

static const char *const share_keys[] = { "per_serving", "per_100_g", "per_100_ml" };

static const char *change_word(enum change_kind kind)
{
    static const char *const words[] = { "none", "more", "less", "not certain" };
    return words[kind];
}

static void add_change(struct showing *showing, cJSON *object, const struct change *change)
{
    cJSON *one = json_kept(showing, cJSON_AddObjectToObject(object, "difference"));
    json_plain_number(showing, one, "low", change->low);
    json_plain_number(showing, one, "best", change->best_known ? change->best : NAN);
    json_plain_number(showing, one, "high", change->high);
    json_kept(showing, cJSON_AddStringToObject(one, "outcome", change_word(change->kind)));
}

static void add_text_or_null(struct showing *showing, cJSON *object, const char *key, struct text text)
{
    if (text.length)
        json_text(showing, object, key, text);
    else
        json_kept(showing, cJSON_AddNullToObject(object, key));
}

static void add_range_or_null(struct showing *showing, cJSON *object, const char *key, struct range range, bool had, bool complete)
{
    if (had)
        json_range(showing, object, key, range, complete);
    else
        json_kept(showing, cJSON_AddNullToObject(object, key));
}

static void add_side(struct showing *showing, cJSON *object, const char *key, const struct compare_side *side)
{
    cJSON *one = json_kept(showing, cJSON_AddObjectToObject(object, key));
    const struct compared *held = &side->held;
    bool serves = held->sums && held->sums->at.recipe->serves.high > 0;
    json_text(showing, one, "name", side->name);
    json_text(showing, one, "kind", side->kind);
    add_text_or_null(showing, one, "file", side->file);
    json_plain_number(showing, one, "line", side->file.length ? (double)side->line : NAN);
    add_text_or_null(showing, one, "revision", side->revision);
    add_text_or_null(showing, one, "source", side->source);
    add_range_or_null(showing, one, "servings", compared_servings(held), serves, true);
    add_text_or_null(showing, one, "serving", side->serving);
    add_range_or_null(showing, one, "serving_grams", held->grams, held->grams.high > 0, true);
    add_range_or_null(showing, one, "serving_ml", held->ml, held->ml.high > 0, true);
    json_kept(showing, cJSON_AddBoolToObject(one, "mass_is_estimated", held->estimated));
    json_kept(showing, cJSON_AddNumberToObject(one, "unknown_lines", side->unknown_count));
}

static void add_end(struct showing *showing, cJSON *object, const char *key, bool has, double limit)
{
    json_plain_number(showing, object, key, has ? limit : NAN);
}

/* Limits and goals of a side, each with its outcome, in the unit in which it was written. */
static void add_limits(struct showing *showing, cJSON *object, const char *key, const struct compare_side *side)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, key));
    for (uint32_t i = 0; i < side->verdicts.count; i++) {
        char storage[200];
        const struct verdict *verdict = &side->verdicts.at[i];
        const struct bound *bound = verdict->bound;
        const struct library *library = side->held.kitchen->library;
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "kind", text_of(bound->is_goal ? "goal" : "limit"));
        json_text(showing, one, "what", verdict_subject(library, verdict, storage, sizeof storage));
        add_end(showing, one, "at_least", bound->has_least, bound->least / bound->divisor);
        add_end(showing, one, "at_most", bound->has_most, bound->most / bound->divisor);
        json_text(showing, one, "unit", bound->divisor != 1 ? bound->unit : bound_column_unit(library, bound));
        json_text(showing, one, "outcome", text_of(outcome_name(verdict->outcome)));
        json_range(showing, one, "value", range_scale(verdict->value, 1 / bound->divisor), verdict->complete);
        cJSON_AddItemToArray(list, one);
    }
}

static void add_figures(struct showing *showing, cJSON *object, const struct compare *comparison)
{
    const struct library *library = showing->kitchen->library, *owner;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "nutrients"));
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        const struct nutrient *nutrient = library_nutrient_at(library, i, &owner);
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "nutrient", library_text(owner, nutrient->key));
        json_text(showing, one, "unit", library_text(owner, nutrient->unit));
        for (uint32_t j = 0; j < SHARE_COUNT; j++) {
            const struct compare_figure *figure = &comparison->figures[i * SHARE_COUNT + j];
            if (!figure->had) {
                json_kept(showing, cJSON_AddNullToObject(one, share_keys[j]));
                continue;
            }
            cJSON *share = json_kept(showing, cJSON_AddObjectToObject(one, share_keys[j]));
            json_range(showing, share, "first", figure->first, figure->first_complete);
            json_range(showing, share, "second", figure->second, figure->second_complete);
            add_change(showing, share, &figure->change);
        }
        cJSON_AddItemToArray(list, one);
    }
}

static void add_lines(struct showing *showing, cJSON *object, const struct compare *comparison)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "lines"));
    for (uint32_t i = 0; i < comparison->row_count; i++) {
        const struct compare_row *row = &comparison->rows[i];
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        add_text_or_null(showing, one, "first", row->first);
        add_range_or_null(showing, one, "first_holds", row->first_holds, row->first.length > 0, row->first_known);
        add_text_or_null(showing, one, "second", row->second);
        add_range_or_null(showing, one, "second_holds", row->second_holds, row->second.length > 0, row->second_known);
        json_kept(showing, cJSON_AddBoolToObject(one, "same", row->same));
        add_change(showing, one, &row->change);
        cJSON_AddItemToArray(list, one);
    }
}

static void add_spoons(struct showing *showing, cJSON *object, const struct compare *comparison)
{
    const struct compare_figure *figure = &comparison->figures[comparison->nutrient * SHARE_COUNT + SHARE_SERVING];
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "spoons"));
    struct spoonful spoon;
    for (uint32_t i = 0; figure->had && spoon_of(showing->kitchen, comparison->nutrient, i, &spoon); i++) {
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "food", spoon.food);
        json_text(showing, one, "unit", spoon.unit);
        json_plain_number(showing, one, "amount", figure->change.best_known ? figure->change.best / spoon.holds : NAN);
        cJSON_AddItemToArray(list, one);
    }
}

void comparison_json(struct compare *comparison, struct telling *telling)
{
    static const char *const servings[] = { "alike", "differ", "not known" };
    struct showing showing = { .kitchen = comparison->sides[1].held.kitchen, .writer = &telling->writer };
    cJSON *object = json_kept(&showing, cJSON_CreateObject());
    json_kept(&showing, cJSON_AddStringToObject(object, "quern", quern_version()));
    json_kept(&showing, cJSON_AddNumberToObject(object, "schema", JSON_VERSION));
    add_side(&showing, object, "first", &comparison->sides[0]);
    add_side(&showing, object, "second", &comparison->sides[1]);
    json_kept(&showing, cJSON_AddBoolToObject(object, "identical", comparison->pairs.identical));
    json_kept(&showing, cJSON_AddStringToObject(object, "serving_sizes", servings[comparison->servings]));
    json_kept(&showing, cJSON_AddBoolToObject(object, "orders_differ", comparison->orders_differ));
    add_limits(&showing, object, "first_limits", &comparison->sides[0]);
    add_limits(&showing, object, "second_limits", &comparison->sides[1]);
    add_figures(&showing, object, comparison);
    json_text(&showing, object, "lines_are_of", json_column_key(showing.kitchen->library, comparison->nutrient));
    add_lines(&showing, object, comparison);
    add_spoons(&showing, object, comparison);
    json_told_cautions(&showing, object, &comparison->cautions);
    json_print(&showing, &telling->writer, object);
    writer_add(&telling->writer, text_of("\n"));
}
