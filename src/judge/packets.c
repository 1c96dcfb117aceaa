/* Packets and the calendar: figures that were read long ago, and packets that nobody can have seen yet. What day it is
 * comes from whoever opened the kitchen. */
#include <stdio.h>

#include "judge/judge.h"

struct food_at line_label(const struct line_amount *amount)
{
    const struct resolved *resolved = amount->resolved;
    if (resolved && resolved->food.food && resolved->food.food->flags & FOOD_IS_LABEL)
        return resolved->food;
    return (struct food_at){ NULL, NULL };
}

/* The policy that asks for the newest packets, of those that the recipe or its kitchen follows; NULL: none asks. */
static const struct policy *strictest_policy(const struct recipe_at at)
{
    const struct kitchen *kitchen = at.gathering->kitchen;
    const struct policy *strictest = NULL;
    for (uint32_t i = 0; i < at.recipe->follow_count + kitchen->follows_count; i++) {
        struct gathering *owner;
        bool own = i < at.recipe->follow_count;
        const struct follow *follow = own ? &at.gathering->follows[at.recipe->first_follow + i] : &kitchen->follows[i - at.recipe->follow_count];
        const struct policy *policy = kitchen_policy(kitchen, follow->name, &owner);
        if (policy && policy->packets.oldest && (!strictest || policy->packets.oldest < strictest->packets.oldest))
            strictest = policy;
    }
    return strictest;
}

bool label_told_before(const struct sums *sums, uint32_t line, const struct food *label)
{
    for (uint32_t i = 0; i < line; i++) {
        if (line_label(&sums->lines[i]).food == label)
            return true;
    }
    return false;
}

/* Labels of a pack have no place in a file of this kitchen. */
static void point_at_seen(const struct kitchen *kitchen, struct findings *findings, struct finding *finding, struct food_at label, struct text date)
{
    if (label.library == &kitchen->local)
        finding_label(findings, finding, (struct place){ label.food->place.file, label.food->seen_span }, WORDS_PACKET_SEEN_HERE, GAPS(date));
}

static void check_age(const struct sums *sums, const struct policy *policy, const struct line_amount *amount, struct findings *findings)
{
    char date[16], age[16], most[16];
    const struct kitchen *kitchen = sums->at.gathering->kitchen;
    struct food_at label = line_label(amount);
    struct text name = library_text(label.library, label.food->name);
    struct place place = recipe_line_place(sums, amount->line);
    uint32_t seen = label.food->seen, days = kitchen->today > seen ? kitchen->today - seen : 0;
    snprintf(age, sizeof age, "%u", days);
    snprintf(most, sizeof most, "%u", policy->packets.oldest);
    struct finding *finding = NULL;
    struct text day = day_print(seen, date, sizeof date);
    if (seen == 0)
        finding = finding_add(findings, FINDING_PACKET_NOT_DATED, place, GAPS(name, policy->name, text_of(most)));
    else if (days > policy->packets.oldest)
        finding = finding_add(findings, FINDING_PACKET_OLD, place, GAPS(name, day, text_of(age), policy->name, text_of(most)));
    if (finding && seen)
        point_at_seen(kitchen, findings, finding, label, day);
    finding_label(findings, finding, policy->place, WORDS_POLICY_HERE, GAPS(policy->name));
}

void recipe_check_packets(const struct sums *sums, struct findings *findings)
{
    const struct policy *policy = strictest_policy(sums->at);
    if (!policy || sums->at.gathering->kitchen->today == 0)
        return;
    for (uint32_t i = 0; i < sums->line_count; i++) {
        struct food_at label = line_label(&sums->lines[i]);
        if (label.food && !label_told_before(sums, i, label.food))
            check_age(sums, policy, &sums->lines[i], findings);
    }
}

void kitchen_check_packets(struct kitchen *kitchen)
{
    for (uint32_t i = 0; kitchen->today && kitchen->library == &kitchen->local && i < kitchen->local.foods_count; i++) {
        char date[16], today[16];
        const struct food *food = &kitchen->local.foods[i];
        if (food->seen > kitchen->today + 1)            /* tomorrow has begun elsewhere */
            finding_add(&kitchen->gatherings[0].findings, FINDING_SEEN_IN_FUTURE, (struct place){ food->place.file, food->seen_span },
                        GAPS(day_print(food->seen, date, sizeof date), day_print(kitchen->today, today, sizeof today)));
    }
}
