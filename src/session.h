/* A session behind its door, shared by the files that hold the calls of quern.h. */
#ifndef QUERN_SESSION_H
#define QUERN_SESSION_H

#include "model/folder.h"
#include "output/output.h"
#include "quern.h"

struct quern_session {
    struct watched_memory memory;   /* of the caller's allocator */
    struct allocator allocator;     /* … that watches it */
    struct quern_options options;
    struct library library;
    struct buffer pack_bytes;       /* read from options.library_path */
    bool library_is_open;
    uint32_t today;                 /* as day_of counts; 0: nobody said */
    char day[16];                   /* the same as it is printed */
    struct telling telling;         /* of the last call */
};

/* Begins a call: what the last one told is forgotten. */
struct telling *session_start(struct quern_session *session, enum quern_form form, quern_sink *sink, void *context);

/* Ends it: flushes, and turns the status of the work into that of the call. */
enum quern_status session_answer(struct telling *telling, enum status status);

enum status session_no_memory(struct telling *telling);

/* Opens the library at the first call that needs it. */
enum status session_library(struct quern_session *session);

/* An empty plan of this session. */
void session_plan(const struct quern_session *session, struct plan *plan);

/* Adds paths to a plan; what cannot be planned is told. */
enum status session_paths(struct telling *telling, struct plan *plan, const char *const *paths, size_t count);

/* Runs a call whose telling is set up: every kitchen of the paths is read, judged and told with `telling->kitchen`. What
 * stands around a kitchen's output is not written: the caller does, before and after. */
enum status session_kitchens(struct quern_session *session, const char *const *paths, size_t count);

/* Reads, resolves, judges and tells one kitchen. */
enum status session_kitchen(struct quern_session *session, const struct planned_kitchen *planned);

#endif
