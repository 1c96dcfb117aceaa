/* The calls that report on a recipe, a day or a kitchen in another way than quern_report does. */
#include "output/trace.h"
#include "session.h"

/* ---- trace ------------------------------------------------------------------------------------------------------ */

/* Where no recipe has the name: the names that lie near. */
static enum status no_such_name(struct telling *telling, const char *name, const char *near)
{
    char words[400];
    snprintf(words, sizeof words, "no recipe or day is called `%.100s`%s%s", name, near[0] ? "; near it lie " : "", near);
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
