/* Amounts of a whole recipe as reports give them, and the cautions that stand beside them: gathered once for all forms. */
#include "output/figures.h"

bool figures_per_serving(const struct sums *sums, const struct library *library, struct amounts *serving)
{
    struct range serves = sums->at.recipe->serves;
    if (serves.low <= 0)
        return false;
    serving->incomplete = sums->total.incomplete;
    for (uint32_t i = 0; i < library->column_count; i++)
        serving->column[i] = range_divide(sums->total.column[i], serves);
    return true;
}

bool figures_per_mass(const struct sums *sums, const struct library *library, struct amounts *hundred, bool *estimated)
{
    bool known;
    struct range grams = recipe_grams(sums->at.recipe, &sums->total, library, estimated, &known);
    if (!known || grams.low <= 0)
        return false;
    hundred->incomplete = sums->total.incomplete;
    for (uint32_t i = 0; i < library->column_count; i++)
        hundred->column[i] = *estimated
            ? range_scale(ratio_of_lines(sums->lines, sums->line_count, library, i, library->mass_column, true, true), 100)
            : range_scale(range_divide(sums->total.column[i], grams), 100);
    return true;
}

bool figures_serving_grams(const struct sums *sums, const struct library *library, struct range *grams, bool *estimated)
{
    bool known;
    const struct recipe *recipe = sums->at.recipe;
    struct range batch = recipe_grams(recipe, &sums->total, library, estimated, &known);
    if (recipe->serves.low <= 0 || !known || batch.high <= 0)
        return false;
    *grams = recipe->yields->serving_grams.high > 0 ? recipe->yields->serving_grams : range_divide(batch, recipe->serves);
    return true;
}

static void person_cautions(const struct report *report, caution_receiver *receive, void *context)
{
    struct eater_caution cautions[EATER_CAUTIONS];
    const struct recipe *recipe = report->sums->at.recipe;
    uint32_t count = eater_cautions(recipe, report->verdicts, cautions);
    for (uint32_t i = 0; i < count; i++)
        receive(context, &(struct caution_told){ .words = cautions[i].words, .source = cautions[i].source });
}

void report_cautions(const struct kitchen *kitchen, const struct report *report, caution_receiver *receive, void *context)
{
    struct cautious cautious = cautious_of(kitchen, report->sums, report->verdicts);
    cautions_called_for(&cautious, receive, context);
    person_cautions(report, receive, context);
    cautions_of_all(kitchen->cautions, kitchen->cautions_owner, receive, context);
}
