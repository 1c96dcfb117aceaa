/* Calls for what a class hands out: the shopping list, the sheet of salts. */
#include "output/class.h"
#include "session.h"

/* ---- the shopping list ------------------------------------------------------------------------------------------- */

/* Names mean something in one kitchen only, and so does a sum. */
enum quern_status quern_shopping(struct quern_session *session, const struct quern_shopping *wanted, quern_sink *sink, void *context)
{
    struct telling *telling = session_start(session, wanted->form, sink, context);
    struct shopping shopping = { .names = wanted->names, .name_count = wanted->count, .servings = wanted->servings };
    const char *path = wanted->kitchen ? wanted->kitchen : ".";
    struct plan plan;
    plan_open(&plan, session->allocator);
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
