/* Days and weeks in JSON. */
#include <math.h>

#include "output/json.h"

/* ---- what recipes have, too ---------------------------------------------------------------------------------------- */

void json_line_of_day(struct showing *showing, cJSON *object, const struct sums *sums, const struct line_amount *amount)
{
    struct range eaten;
    const struct recipe *recipe = sums->at.recipe;
    if (line_servings(sums, amount, recipe->serves.high > 0 ? recipe->serves : range_exact(1), &eaten))
        json_range(showing, object, "servings_eaten", eaten, true);
    if (!recipe->is_day)
        return;
    if (amount->line->part != NONE_INDEX)
        json_text(showing, object, "meal", sums->at.gathering->parts[amount->line->part].name);
    else
        json_kept(showing, cJSON_AddNullToObject(object, "meal"));
}

/* ---- a day ----------------------------------------------------------------------------------------------------------- */

void json_eater(struct showing *showing, cJSON *object, const struct eater *eater)
{
    if (!eater) {
        json_kept(showing, cJSON_AddNullToObject(object, "for"));
        return;
    }
    cJSON *one = json_kept(showing, cJSON_AddObjectToObject(object, "for"));
    json_text(showing, one, "words", eater->written);
    if (eater->age >= 0)
        json_kept(showing, cJSON_AddNumberToObject(one, "age_months", eater->age));
    else
        json_kept(showing, cJSON_AddNullToObject(one, "age_months"));
    json_kept(showing, cJSON_AddBoolToObject(one, "under_care", eater->under_care));
}

static void add_meals(struct showing *showing, cJSON *object, const struct sums *sums)
{
    struct amounts total;
    const struct recipe *recipe = sums->at.recipe;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "meals"));
    for (uint32_t i = recipe->first_part; i < recipe->first_part + recipe->part_count; i++) {
        uint32_t first, end;
        const struct part *part = &sums->at.gathering->parts[i];
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_head(showing, one, part->name, part->place);
        meal_lines(sums, part, &first, &end);
        meal_total(sums, first, end, &total);
        json_amounts(showing, one, "per_meal", &total);
        cJSON_AddItemToArray(list, one);
    }
    if (meal_outside(sums, &total))
        json_amounts(showing, object, "in_no_meal", &total);
    else
        json_kept(showing, cJSON_AddNullToObject(object, "in_no_meal"));
}

static void add_published(struct showing *showing, cJSON *object, const struct published_set *set)
{
    static const char *const kinds[] = { "adequate", "at most", "at least" };
    static const char *const uses[] = { "judged", "shown", "clinician", "under care" };
    const struct library *library = showing->kitchen->library;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "published"));
    for (uint32_t i = 0; i < set->count; i++) {
        const struct published *published = &set->at[i];
        const struct intake_figure *figure = published->figure;
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "nutrient", json_column_key(library, figure->nutrient));
        json_kept(showing, cJSON_AddStringToObject(one, "kind", kinds[figure->kind]));
        json_kept(showing, cJSON_AddBoolToObject(one, "strict", figure->strict != 0));
        json_text(showing, one, "unit", bound_column_unit(library, &published->bound));
        json_kept(showing, cJSON_AddNumberToObject(one, "least", published->least));
        json_kept(showing, cJSON_AddNumberToObject(one, "most", published->most));
        json_kept(showing, cJSON_AddStringToObject(one, "use", uses[published->use]));
        json_text(showing, one, "title", library_text(published->owner, published->intake->title));
        json_text(showing, one, "source", library_text(published->owner, figure->source));
        cJSON_AddItemToArray(list, one);
    }
}

void json_day(struct showing *showing, const struct report *report)
{
    const struct sums *sums = report->sums;
    const struct recipe *day = sums->at.recipe;
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_head(showing, object, day->name, (struct place){ day->file, day->title });
    json_eater(showing, object, day->eater);
    json_kept(showing, cJSON_AddBoolToObject(object, "variation", showing->kitchen->variation));
    json_kept(showing, cJSON_AddNumberToObject(object, "spoon_error", showing->kitchen->spoon_error));
    json_amounts(showing, object, "per_day", &sums->total);
    add_meals(showing, object, sums);
    add_published(showing, object, &report->verdicts->published);
    json_lists(showing, object, report);
    json_print(showing, showing->writer, object);
}

/* ---- a week ----------------------------------------------------------------------------------------------------------- */

static void add_days(struct showing *showing, cJSON *object, struct week_at at)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "days"));
    for (uint32_t i = 0; i < at.week->day_count; i++) {
        const struct follow *named = &at.gathering->week_days[at.week->first_day + i];
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_head(showing, one, named->name, named->place);
        json_kept(showing, cJSON_AddBoolToObject(one, "known", week_day(showing->kitchen, at, i).recipe != NULL));
        cJSON_AddItemToArray(list, one);
    }
}

/* Of each nutrient: how many days are complete, their average, and the highest day. */
static void add_columns(struct showing *showing, cJSON *object, const struct week_sum *week)
{
    const struct library *library = showing->kitchen->library;
    cJSON *all = json_kept(showing, cJSON_AddObjectToObject(object, "by_nutrient"));
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        char key[64];
        struct text name = json_column_key(library, i);
        snprintf(key, sizeof key, "%.*s", (int)name.length, name.bytes);
        cJSON *one = json_kept(showing, cJSON_AddObjectToObject(all, key));
        json_kept(showing, cJSON_AddNumberToObject(one, "complete_days", week->complete[i]));
        if (week->complete[i])
            json_range(showing, one, "average_of_complete_days", week->of_complete[i], true);
        else
            json_kept(showing, cJSON_AddNullToObject(one, "average_of_complete_days"));
        if (!week->highest[i].recipe) {
            json_kept(showing, cJSON_AddNullToObject(one, "highest"));
            continue;
        }
        cJSON *highest = json_kept(showing, cJSON_AddObjectToObject(one, "highest"));
        json_text(showing, highest, "day", week->highest[i].recipe->name);
        json_range(showing, highest, "value", week->highest_value[i], week->highest_complete[i]);
    }
}

/* Each bound by the average of the days, with the day that goes furthest. */
static bool add_week_limits(struct showing *showing, cJSON *object, struct week_at at, const struct week_sum *week, struct sums *sums)
{
    struct week_verdicts verdicts = { 0 };
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "limits"));
    bool good = week_judge(showing->kitchen, at, sums, week, &verdicts, NULL) == STATUS_OK;
    for (uint32_t i = 0; i < verdicts.averages.count; i++) {
        const struct week_furthest *furthest = &verdicts.days[i];
        cJSON *one = json_limit(showing, list, &verdicts.averages.at[i]);
        if (!furthest->day.recipe) {
            json_kept(showing, cJSON_AddNullToObject(one, "furthest_day"));
            continue;
        }
        cJSON *day = json_kept(showing, cJSON_AddObjectToObject(one, "furthest_day"));
        json_text(showing, day, "day", furthest->day.recipe->name);
        json_range(showing, day, "value", furthest->verdict.value, furthest->verdict.complete);
        json_kept(showing, cJSON_AddStringToObject(day, "outcome", outcome_name(furthest->verdict.outcome)));
    }
    week_verdicts_close(&verdicts, showing->kitchen->allocator);
    return good;
}

static bool add_week_cautions(struct showing *showing, cJSON *object, struct week_at at, struct sums *sums)
{
    struct week_cautions said;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "cautions"));
    bool good = week_find_cautions(showing->kitchen, at, sums, &said) == STATUS_OK;
    for (uint32_t i = 0; i < said.count; i++)
        json_caution(showing, list, &(struct caution_told){ said.at[i].words, said.at[i].source, text_of(said.at[i].because), said.at[i].exactly, false, NONE_INDEX });
    week_cautions_close(&said, showing->kitchen->allocator);
    return good;
}

/* What takes a look at each day once more. */
static void add_week_lists(struct showing *showing, cJSON *object, struct week_at at, const struct week_sum *week)
{
    struct sums sums;
    sums_open(&sums, showing->kitchen->allocator);
    bool good = add_week_limits(showing, object, at, week, &sums) && add_week_cautions(showing, object, at, &sums);
    showing->json_failed = showing->json_failed || !good;
    sums_close(&sums);
}

void json_week(struct showing *showing, struct week_at at, const struct week_sum *week)
{
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_head(showing, object, at.week->name, (struct place){ at.week->file, at.week->title });
    add_days(showing, object, at);
    json_amounts(showing, object, "average", &week->average);
    add_columns(showing, object, week);
    add_week_lists(showing, object, at, week);
    json_print(showing, showing->writer, object);
}
