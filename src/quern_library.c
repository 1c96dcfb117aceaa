/* Calls about the library itself: packs, looking up, importing. */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "import/import.h"
#include "library/packing.h"
#include "output/lookup.h"
#include "session.h"

/* ---- packs --------------------------------------------------------------------------------------------------------- */

/* All passes over the files that were asked for, into findings of the kitchen that holds them. */
static enum status pack_files(struct kitchen *kitchen, struct packing *packing)
{
    struct buffer *buffer = &kitchen->gatherings[0].buffer;
    for (uint32_t i = 0; i < PACKING_PASSES * kitchen->files_count; i++) {
        struct kitchen_file *file = &kitchen->files[i % kitchen->files_count];
        enum status status = file_read(AT_FDCWD, file->path, LIMIT_FILE_BYTES, buffer);
        if (status == STATUS_OK)
            status = packing_read(packing, i % kitchen->files_count, buffer->bytes, (uint32_t)buffer->length, i / kitchen->files_count);
        if (status == STATUS_OK)
            continue;
        file->status = STATUS_IO;
        file->reason = status == STATUS_LIMIT ? EFBIG : errno;
        return status == STATUS_NO_MEMORY ? status : STATUS_OK;         /* unreadable_status says it */
    }
    return STATUS_OK;
}

static enum status write_pack(struct telling *telling, const char *path, const void *pack, size_t size)
{
    struct output_file file;
    enum status status = output_file_open(&file, telling->allocator, path);
    if (status != STATUS_OK)
        return telling_fail(telling, status, path, strerror(errno));
    fwrite(pack, 1, size, file.stream);
    status = output_file_finish(&file);
    return status == STATUS_OK ? status : telling_fail(telling, status, path, strerror(errno));
}

static enum status finish_pack(struct quern_session *session, struct packing *packing, struct kitchen *kitchen, const char *path)
{
    struct telling *telling = &session->telling;
    struct library library;
    void *pack;
    size_t size;
    enum status status = packing_close(packing, &pack, &size);
    if (status == STATUS_OK)
        status = telling_unread(telling, kitchen);
    if (status == STATUS_OK)
        status = telling_kitchen(telling, kitchen);
    if (status == STATUS_OK && telling->errors == 0) {
        library_view(&library, pack, &session->library);
        status = write_pack(telling, path, pack, size);
        if (status == STATUS_OK)
            writer_print(&telling->writer, "%u foods in ", library.foods_count);
        if (status == STATUS_OK)
            writer_visible(&telling->writer, text_of(path));
        writer_add(&telling->writer, text_of(status == STATUS_OK ? "\n" : ""));
    }
    if (pack)
        session->allocator.resize(session->allocator.context, pack, 0);
    return status;
}

static enum status do_pack(struct quern_session *session, const struct plan *plan, const char *path)
{
    char key[KEY_BYTES];
    const struct library *rules_owner = NULL;
    struct kitchen kitchen;
    struct packing packing;
    kitchen_open(&kitchen, session->allocator, &session->library, 1);
    bool good = !kitchen.failed;
    for (uint32_t i = 0; good && i < plan->kitchens_count; i++) {
        for (uint32_t j = 0; good && j < plan->kitchens[i].files_count; j++) {
            const struct planned_file *file = &plan->kitchens[i].files[j];
            good = !file->requested || file->is_kitchen || kitchen_add_file(&kitchen, file->path, true, false);
        }
    }
    const struct rules *rules = library_rules(&session->library, (struct text){ key, name_key_of(text_of(USUAL_RULES), false, key) }, &rules_owner);
    enum status status = STATUS_NO_MEMORY;
    if (good) {
        good = packing_open(&packing, session->allocator, &session->library, rules, rules_owner, &kitchen.gatherings[0].findings);
        status = good ? pack_files(&kitchen, &packing) : STATUS_NO_MEMORY;
        enum status end = finish_pack(session, &packing, &kitchen, path);
        status = status == STATUS_OK ? end : status;
    }
    kitchen_close(&kitchen);
    return status;
}

enum quern_status quern_pack(struct quern_session *session, const char *const *paths, size_t count, const char *path,
                             quern_sink *sink, void *context)
{
    struct telling *telling = session_start(session, QUERN_AS_TEXT, sink, context);
    struct plan plan;
    enum status status = session_library(session);
    session_plan(session, &plan);
    temporaries_clear_beside(path, session->allocator);
    if (status == STATUS_OK)
        status = session_paths(telling, &plan, paths, count);
    if (status == STATUS_OK)
        status = do_pack(session, &plan, path);
    if (status == STATUS_NO_MEMORY)
        session_no_memory(telling);
    if (status == STATUS_OK && telling->errors)
        people_summary(&telling->writer, telling->errors, telling->warnings, telling->notes);
    plan_close(&plan);
    return session_answer(telling, status);
}

/* ---- looking up ------------------------------------------------------------------------------------------------ */

/* Reads the kitchens of a folder for the lines that use the food. */
static enum status look_into_kitchens(struct quern_session *session, struct lookup *lookup)
{
    struct telling *telling = &session->telling;
    struct plan plan;
    session_plan(session, &plan);
    enum status status = session_paths(telling, &plan, &lookup->wanted->kitchen, 1);
    telling->kitchen = lookup_kitchen;
    telling->task = lookup;
    lookup->is_alone = plan.kitchens_count == 1;
    for (uint32_t i = 0; i < plan.kitchens_count && status == STATUS_OK; i++)
        status = session_kitchen(session, &plan.kitchens[i]);
    plan_close(&plan);
    return status;
}

enum quern_status quern_lookup(struct quern_session *session, const struct quern_lookup *wanted, quern_sink *sink,
                               void *context)
{
    struct telling *telling = session_start(session, wanted->form, sink, context);
    struct lookup lookup;
    enum status status = session_library(session);
    lookup_open(&lookup, wanted, session->allocator);
    if (status == STATUS_OK && wanted->kitchen)
        status = look_into_kitchens(session, &lookup);
    if (status == STATUS_OK && !lookup.was_told)
        status = lookup_tell(&lookup, telling, &session->library, NULL, NULL);
    lookup_close(&lookup);
    return session_answer(telling, status);
}

/* ---- importing ------------------------------------------------------------------------------------------------- */

struct importing {
    struct writer *writer;
    const struct quern_import *what;
};

static bool import_say(void *context, const char *bytes, size_t length)
{
    struct importing *importing = context;
    writer_add(importing->writer, (struct text){ bytes, (uint32_t)length });
    return writer_flush(importing->writer) && !importing->writer->buffer.failed;
}

static bool import_progress(void *context, uint64_t done, uint64_t whole)
{
    const struct quern_import *what = ((struct importing *)context)->what;
    return !what->progress || what->progress(what->progress_context, done, whole);
}

static bool is_pack_path(const char *path)
{
    size_t length = strlen(path);
    return length > 5 && strcmp(path + length - 5, ".pack") == 0;
}

/* Imports into a folder beside the pack, compiles what was written, and takes the folder away. */
static enum status import_to_pack(struct quern_session *session, struct import_request *request, struct import_outcome *outcome)
{
    const char *pack = request->folder, *slash = strrchr(pack, '/');
    char name[TEMPORARY_BYTES];
    struct buffer folder;
    struct plan plan;
    buffer_open(&folder, session->allocator);
    temporary_name(name);
    buffer_print(&folder, "%.*s%s", slash ? (int)(slash - pack + 1) : 0, pack, name);
    if (folder.failed) {
        buffer_close(&folder);
        return STATUS_NO_MEMORY;
    }
    enum status status = STATUS_OK;
    temporaries_clear_beside(pack, session->allocator);
    if (!mkdtemp(folder.bytes))
        status = telling_fail(&session->telling, STATUS_IO, pack, strerror(errno));
    request->folder = folder.bytes;
    request->for_pack = true;
    if (status == STATUS_OK)
        status = import_run(request, outcome);
    session_plan(session, &plan);
    if (status == STATUS_OK && outcome->files > 0) {
        const char *written = folder.bytes;
        status = session_paths(&session->telling, &plan, &written, 1);
        status = status == STATUS_OK ? do_pack(session, &plan, pack) : status;
    }
    plan_close(&plan);
    scratch_remove(folder.bytes, session->allocator);      /* the texts that a pack was made from are not kept */
    buffer_close(&folder);
    return status;
}

enum quern_status quern_import(struct quern_session *session, const struct quern_import *what, quern_sink *sink,
                               void *context)
{
    struct telling *telling = session_start(session, QUERN_AS_TEXT, sink, context);
    struct importing importing = { &telling->writer, what };
    struct import_outcome outcome = { .wrong = 0 };
    enum status status = session_library(session);
    struct import_request request = {
        .path = what->path, .folder = what->out, .form = what->form, .map_path = what->map, .source = what->source,
        .prefix = what->prefix, .skip_wrong = what->skip_bad, .library = &session->library, .allocator = session->allocator,
        .say = import_say, .say_context = &importing, .progress = import_progress, .progress_context = &importing,
    };
    if (status == STATUS_OK)
        status = is_pack_path(what->out) ? import_to_pack(session, &request, &outcome) : import_run(&request, &outcome);
    if (status == STATUS_NO_MEMORY)
        session_no_memory(telling);
    else if (status != STATUS_OK && outcome.failure[0])
        telling_fail(telling, status, outcome.failure, NULL);
    telling->errors += outcome.files == 0;
    return session_answer(telling, status);
}
