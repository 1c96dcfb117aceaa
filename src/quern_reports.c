/* Calls for reports of their own kind. */
#include "model/revision.h"
#include "output/class.h"
#include "output/compare.h"
#include "output/rank.h"
#include "output/trace.h"
#include "session.h"

/* ---- trace ------------------------------------------------------------------------------------------------------ */

/* Where no recipe has the name: the names that lie near. */
static enum status no_such_name(struct telling *telling, const char *name, const char *near)
{
    char words[512];
    snprintf(words, sizeof words, "no recipe or day is called \"%.100s\"%s%s", name, near[0] ? "; near names are " : "", near);
    return telling_fail(telling, STATUS_USAGE, words, NULL);
}

enum quern_status quern_trace(struct quern_session *session, const struct quern_trace *wanted, quern_sink *sink, void *context)
{
    const char *path = wanted->kitchen ? wanted->kitchen : ".";
    struct trace_task task = { .wanted = wanted };
    struct telling *telling = session_start(session, wanted->form, sink, context);
    telling->kitchen = trace_kitchen;
    telling->task = &task;
    enum status status = session_kitchens(session, &path, 1);
    if (status == STATUS_OK && !task.found)
        status = no_such_name(telling, wanted->recipe, task.near);
    return session_answer(telling, status);
}

/* ---- compare ------------------------------------------------------------------------------------------------------- */

/* Kitchens that are read for one comparison: that of the second side while that of the first is still open. */
struct comparing {
    struct quern_session *session;
    struct compare comparison;
    struct plan plans[2];               /* of each side; without a revision both are of the first */
    struct revision revision;
};

static const struct planned_kitchen no_kitchen = { .root = NULL };

/* The kitchen with this number; where there is none, foods of the library are compared. */
static const struct planned_kitchen *planned(const struct plan *plan, uint32_t number)
{
    return number < plan->kitchens_count ? &plan->kitchens[number] : &no_kitchen;
}

/* Looks for the sides' names where there are several kitchens; a single one is looked through when it is open. */
static enum status look(struct comparing *comparing, const struct plan *plan)
{
    struct telling *telling = &comparing->session->telling;
    enum status status = STATUS_OK;
    if (plan->kitchens_count < 2)
        return STATUS_OK;
    telling->kitchen = comparison_look;
    for (uint32_t i = 0; i < plan->kitchens_count && status == STATUS_OK; i++)
        status = session_kitchen(comparing->session, &plan->kitchens[i]);
    telling->kitchen = comparison_kitchen;
    return status == STATUS_OK ? comparison_found(&comparing->comparison, telling) : status;
}

static enum status read_second(void *context)
{
    struct comparing *comparing = context;
    struct compare *comparison = &comparing->comparison;
    const struct plan *plan = comparison->wanted->since ? &comparing->plans[1] : &comparing->plans[0];
    comparison->next = NULL;
    comparison->looks_for = 2;
    comparison->revision = NULL;
    comparison->strip = 0;
    return session_kitchen(comparing->session, planned(plan, comparison->searches[1].kitchen));
}

static enum status compare_names(struct comparing *comparing)
{
    struct compare *comparison = &comparing->comparison;
    const struct compare_search *searches = comparison->searches;
    enum status status = look(comparing, &comparing->plans[0]);
    if (status != STATUS_OK)
        return status;
    bool first_is_here = searches[0].hits > 0, second_is_here = searches[1].hits > 0;
    uint32_t first = first_is_here ? searches[0].kitchen : second_is_here ? searches[1].kitchen : 0;
    uint32_t second = second_is_here ? searches[1].kitchen : first;
    comparison->searches[1].kitchen = second;
    if (first != second) {
        comparison->next = read_second;
        comparison->looks_for = 1;
    }
    return session_kitchen(comparing->session, planned(&comparing->plans[0], first));
}

/* The first side is read where it was put as it was; the second is the kitchen as it is. */
static enum status compare_since(struct comparing *comparing)
{
    struct compare *comparison = &comparing->comparison;
    struct telling *telling = &comparing->session->telling;
    const char *since = comparison->wanted->since;
    comparison->looks_for = 2;
    enum status status = look(comparing, &comparing->plans[1]);
    if (status == STATUS_OK)
        status = revision_fetch(&comparing->revision, planned(&comparing->plans[1], comparison->searches[1].kitchen), since, &comparison->arena);
    if (status == STATUS_OK && comparing->revision.failure[0] == '\0') {
        const char *path = comparing->revision.path;
        status = session_paths(telling, &comparing->plans[0], &path, 1);
    }
    if (status != STATUS_OK && comparing->revision.failure[0])
        return telling_fail(telling, status, comparing->revision.failure, NULL);
    if (status != STATUS_OK)
        return status;
    comparison->looks_for = 1;
    comparison->revision = since;
    comparison->strip = comparing->revision.strip;
    status = look(comparing, &comparing->plans[0]);
    comparison->next = read_second;
    return status == STATUS_OK ? session_kitchen(comparing->session, planned(&comparing->plans[0], comparison->searches[0].kitchen)) : status;
}

/* Here, unless a path is named. Where nothing of ours lies here, the library alone will do. */
static enum status plan_kitchens(struct comparing *comparing, struct plan *plan)
{
    const struct quern_compare *wanted = comparing->comparison.wanted;
    struct telling *telling = &comparing->session->telling;
    enum status status = plan_add(plan, wanted->kitchen ? wanted->kitchen : ".");
    if (status != STATUS_USAGE || wanted->kitchen || wanted->since)
        return status == STATUS_OK ? status : session_paths(telling, plan, (const char *const[]){ wanted->kitchen ? wanted->kitchen : "." }, 1);
    return STATUS_OK;
}

enum quern_status quern_compare(struct quern_session *session, const struct quern_compare *wanted, quern_sink *sink, void *context)
{
    struct telling *telling = session_start(session, wanted->form, sink, context);
    struct comparing comparing = { .session = session };
    enum status status = session_library(session);
    comparison_open(&comparing.comparison, wanted, session->allocator);
    session_plan(session, &comparing.plans[0]);
    session_plan(session, &comparing.plans[1]);
    comparing.comparison.context = &comparing;
    telling->kitchen = comparison_kitchen;
    telling->task = &comparing.comparison;
    if (status == STATUS_OK)
        status = plan_kitchens(&comparing, &comparing.plans[wanted->since ? 1 : 0]);
    if (status == STATUS_OK)
        status = wanted->since ? compare_since(&comparing) : compare_names(&comparing);
    if (status == STATUS_NO_MEMORY)
        session_no_memory(telling);
    revision_remove(&comparing.revision, session->allocator);
    plan_close(&comparing.plans[1]);
    plan_close(&comparing.plans[0]);
    comparison_close(&comparing.comparison);
    return session_answer(telling, status);
}

/* ---- rank ---------------------------------------------------------------------------------------------------------- */

enum quern_status quern_rank(struct quern_session *session, const struct quern_rank *wanted, quern_sink *sink, void *context)
{
    struct telling *telling = session_start(session, wanted->form, sink, context);
    struct ranking ranking;
    ranking_open(&ranking, wanted, session->allocator);
    telling->kitchen = ranking_kitchen;
    telling->task = &ranking;
    enum status status = session_kitchens(session, wanted->paths, wanted->count);
    if (status == STATUS_OK)
        status = ranking_tell(&ranking, telling);
    if (status == STATUS_NO_MEMORY)
        session_no_memory(telling);
    ranking_close(&ranking);
    return session_answer(telling, status);
}

/* ---- the shopping list ------------------------------------------------------------------------------------------- */

/* Names mean something in one kitchen only, and so does a sum. */
enum quern_status quern_shopping(struct quern_session *session, const struct quern_shopping *wanted, quern_sink *sink, void *context)
{
    struct telling *telling = session_start(session, wanted->form, sink, context);
    struct shopping shopping = { .names = wanted->names, .name_count = wanted->count, .servings = wanted->servings };
    const char *path = wanted->kitchen ? wanted->kitchen : ".";
    struct plan plan;
    session_plan(session, &plan);
    enum status status = session_library(session);
    if (status == STATUS_OK)
        status = session_paths(telling, &plan, &path, 1);
    telling->kitchen = telling_shopping;
    telling->task = &shopping;
    if (status == STATUS_OK && plan.kitchens_count != 1)
        status = telling_fail(telling, STATUS_USAGE, path, "several kitchens lie there; name one of them with --kitchen");
    if (status == STATUS_OK)
        status = session_kitchen(session, &plan.kitchens[0]);
    plan_close(&plan);
    return session_answer(telling, status);
}

/* ---- the sheet of salts ------------------------------------------------------------------------------------------ */

/* The library alone, as a kitchen without a recipe sees it: with the usual rules. */
enum quern_status quern_salts(struct quern_session *session, enum quern_form form, quern_sink *sink, void *context)
{
    struct telling *telling = session_start(session, form, sink, context);
    enum status status = session_library(session);
    if (status == STATUS_OK) {
        struct kitchen kitchen;
        kitchen_open(&kitchen, session->allocator, &session->library, 1);
        status = kitchen.failed ? STATUS_NO_MEMORY : kitchen_link(&kitchen);
        if (status == STATUS_OK)
            status = telling_salts(telling, &kitchen);
        kitchen_close(&kitchen);
    }
    if (status == STATUS_NO_MEMORY)
        session_no_memory(telling);
    return session_answer(telling, status);
}
