/* Weeks: the average of their days and the highest of them. One day that is incomplete leaves the average open; that of
 * the complete days is told beside it, with how many they are. */
#include <math.h>
#include <string.h>

#include "judge/judge.h"

struct recipe_at week_day(const struct kitchen *kitchen, struct week_at at, uint32_t number)
{
    const struct follow *named = &at.gathering->week_days[at.week->first_day + number];
    struct recipe_at found = kitchen_recipe(kitchen, named->name);
    return found.recipe && found.recipe->is_day ? found : (struct recipe_at){ NULL, NULL };
}

static void add_day(struct week_sum *week, const struct sums *sums, uint32_t columns)
{
    for (uint32_t i = 0; i < columns; i++) {
        struct range value = sums->total.column[i];
        bool complete = amounts_complete(&sums->total, i);
        week->average.column[i].low += value.low;
        if (complete) {
            week->complete[i]++;
            week->of_complete[i] = range_add(week->of_complete[i], value);
        }
        double now = complete ? value.best : value.low;
        double before = week->highest_complete[i] ? week->highest_value[i].best : week->highest_value[i].low;
        if (week->highest[i].recipe && now <= before)
            continue;
        week->highest[i] = sums->at;
        week->highest_value[i] = value;
        week->highest_complete[i] = complete;
    }
}

static void close_week(struct week_sum *week, uint32_t columns)
{
    for (uint32_t i = 0; i < columns; i++) {
        struct range *average = &week->average.column[i];
        if (week->complete[i])
            week->of_complete[i] = range_scale(week->of_complete[i], 1.0 / week->complete[i]);
        if (week->days && week->complete[i] == week->days) {
            *average = week->of_complete[i];
            continue;
        }
        average->low = week->days ? average->low / week->days : 0;
        average->best = average->high = INFINITY;
        week->average.incomplete |= (uint64_t)1 << i;
    }
}

enum status week_compute(const struct kitchen *kitchen, struct week_at at, struct sums *sums, struct week_sum *week)
{
    uint32_t columns = kitchen->library->column_count;
    enum status status = STATUS_OK;
    memset(week, 0, sizeof *week);
    week->days = at.week->day_count;
    for (uint32_t i = 0; i < week->days && status == STATUS_OK; i++) {
        struct recipe_at day = week_day(kitchen, at, i);
        if (!day.recipe)
            continue;
        status = sums_compute(sums, day);
        if (status == STATUS_OK)
            add_day(week, sums, columns);
    }
    close_week(week, columns);
    return status;
}

void kitchen_name_weeks(struct kitchen *kitchen)
{
    struct findings *findings = &kitchen->gatherings[0].findings;
    for (uint32_t i = 0; i < kitchen->weeks_count; i++) {
        struct week_at at = kitchen->weeks[i];
        for (uint32_t j = 0; j < at.week->day_count; j++) {
            char key[KEY_BYTES];
            const struct follow *named = &at.gathering->week_days[at.week->first_day + j];
            if (week_day(kitchen, at, j).recipe)
                continue;
            struct food_at label = library_label(kitchen->library, (struct text){ key, name_key_of(named->name, true, key) });
            bool other = kitchen_recipe(kitchen, named->name).recipe || label.food;
            struct finding *finding = finding_add(findings, other ? FINDING_NOT_A_DAY : FINDING_UNKNOWN_DAY, named->place, GAPS(named->name));
            if (!other)
                kitchen_near_days(kitchen, findings, finding, *named);
        }
    }
}
