/* Calls that hand out something of their own: the sheet of salts. */
#include "output/class.h"
#include "session.h"

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
