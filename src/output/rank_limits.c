/* Limits and goals of the ranked nutrient: whether dishes keep them. */
#include <stdlib.h>

#include "output/rank.h"

/* By what is ranked here: shares of it by weight or energy, and what it is to others, are not added up. */
static bool is_ranked(const struct ranking *ranking, const struct bound *bound)
{
    return bound->column == ranking->nutrient && bound->over == NONE_INDEX
        && (bound->basis == PER_SERVING || bound->basis == PER_RECIPE || bound->basis == PER_DAY || bound->basis == PER_MEAL);
}

/* A large kitchen has many, of which few are told. */
static bool add_limit(struct ranking *ranking, struct recipe_at at, struct sheet *words, const struct verdict *verdict)
{
    const struct library *library = at.gathering->kitchen->library;
    enum standing_rank rank = standing_rank_of(verdict);
    if (ranking->limits_seen[rank]++ >= ranking->limit)
        return true;
    if (!array_grow(&ranking->arena.allocator, &ranking->limits, ranking->limits_kept, &ranking->limits_capacity, sizeof *ranking->limits))
        return false;
    ranking->limits[ranking->limits_kept] = (struct rank_limit){
        .recipe = ranking_keep(ranking, at.recipe->name), .limit = ranking_keep(ranking, held_limit(words, library, verdict)),
        .is = held_outcome(verdict), .tone = held_tone(verdict), .value = ranking_keep(ranking, held_value(words, library, verdict)),
        .holds = verdict->value, .complete = verdict->complete, .is_goal = verdict->bound->is_goal, .outcome = verdict->outcome, .rank = rank, .number = ranking->limits_kept,
    };
    ranking->limits_kept++;
    return true;
}

bool ranking_add_limits(struct ranking *ranking, const struct sums *sums, const struct verdicts *verdicts)
{
    struct writer writer;
    struct sheet words;
    bool added = true;
    struct allocator allocator = ranking->arena.allocator;
    writer_open(&writer, allocator, NULL, NULL);
    sheet_open(&words, LOOK_TEXT, &writer, allocator);
    for (uint32_t i = 0; i < verdicts->count && added; i++) {
        if (is_ranked(ranking, verdicts->at[i].bound))
            added = add_limit(ranking, sums->at, &words, &verdicts->at[i]);
    }
    added = added && !words.arena.failed;
    sheet_close(&words);
    buffer_close(&writer.buffer);
    return added;
}

static int compare_limits(const void *left, const void *right)
{
    const struct rank_limit *a = left, *b = right;
    if (a->rank != b->rank)
        return a->rank < b->rank ? -1 : 1;
    return a->number < b->number ? -1 : 1;
}

void ranking_sort_limits(struct ranking *ranking)
{
    if (ranking->limits_kept)
        qsort(ranking->limits, ranking->limits_kept, sizeof *ranking->limits, compare_limits);
}

uint32_t rank_limits_open(const struct ranking *ranking)
{
    return ranking->limits_seen[STANDING_BROKEN] + ranking->limits_seen[STANDING_DOUBT] + ranking->limits_seen[STANDING_MISSED];
}

uint32_t rank_limits_shown(const struct ranking *ranking)
{
    return rank_shown(ranking->recipes == 1 ? ranking->limits_kept : rank_limits_open(ranking), ranking->limit);
}
