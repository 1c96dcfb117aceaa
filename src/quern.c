/* The library's door, and the whole flow: plan which kitchens the paths mean; for each, read and collect its files,
 * link names, resolve and judge its recipes, and tell what there is to say. */
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "judge/judge.h"
#include "output/class.h"
#include "output/lookup.h"
#include "session.h"

extern const unsigned char quern_stdlib_pack[];

const char *quern_version(void)
{
    return QUERN_VERSION;
}

/* ---- session ------------------------------------------------------------------------------------------------- */

struct quern_session *quern_open(const struct quern_options *options)
{
    struct allocator allocator = allocator_standard();
    if (options && options->resize)
        allocator = (struct allocator){ options->resize, options->resize_context };
    struct quern_session *session = allocator.resize(allocator.context, NULL, sizeof *session);
    if (!session)
        return NULL;
    *session = (struct quern_session){ .memory = { .allocator = allocator } };
    session->allocator = allocator_watched(&session->memory);
    if (options)
        session->options = *options;
    session->today = options && options->today ? day_of(text_of(options->today)) : 0;
    session->options.today = NULL;                  /* the caller's bytes may go */
    day_print(session->today, session->day, sizeof session->day);
    buffer_open(&session->pack_bytes, session->allocator);
    return session;
}

void quern_close(struct quern_session *session)
{
    if (!session)
        return;
    struct allocator allocator = session->memory.allocator;
    buffer_close(&session->pack_bytes);
    allocator.resize(allocator.context, session, 0);
}

const char *quern_failure(const struct quern_session *session)
{
    return session->telling.failure;
}

void quern_counts(const struct quern_session *session, size_t *errors, size_t *warnings, size_t *notes)
{
    *errors = session->telling.errors;
    *warnings = session->telling.warnings;
    *notes = session->telling.notes;
}

enum status session_no_memory(struct telling *telling)
{
    return telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL);
}

static enum status open_pack_file(struct quern_session *session)
{
    const char *path = session->options.library_path;
    enum status status = file_read(AT_FDCWD, path, LIMIT_PACK_BYTES, &session->pack_bytes);
    if (status == STATUS_NO_MEMORY)
        return session_no_memory(&session->telling);
    if (status != STATUS_OK)
        return telling_fail(&session->telling, status, path, status == STATUS_LIMIT ? "too large" : strerror(errno));
    enum pack_trouble trouble = pack_verify(session->pack_bytes.bytes, session->pack_bytes.length, NULL);
    if (trouble != PACK_SOUND)
        return telling_fail(&session->telling, STATUS_BAD_PACK, path, pack_trouble_words(trouble));
    library_view(&session->library, session->pack_bytes.bytes, NULL);
    return STATUS_OK;
}

/* The embedded pack was verified when the program was built. */
enum status session_library(struct quern_session *session)
{
    enum status status = STATUS_OK;
    if (session->library_is_open)
        return STATUS_OK;
    if (session->options.library_path)
        status = open_pack_file(session);
    else
        library_view(&session->library, quern_stdlib_pack, NULL);
    session->library_is_open = status == STATUS_OK;
    return status;
}

/* ---- one kitchen --------------------------------------------------------------------------------------------- */

static uint32_t worker_count(const struct quern_session *session, uint32_t files)
{
    uint32_t jobs = session->options.jobs ? session->options.jobs : 1, useful = files / KITCHEN_FILES_PER_WORKER + 1;
    jobs = jobs > LIMIT_JOBS ? LIMIT_JOBS : jobs;
    return jobs < useful ? jobs : useful;
}

static enum status add_files(struct kitchen *kitchen, const struct planned_kitchen *planned)
{
    for (int pass = 1; pass >= 0; pass--) {             /* kitchen.quern comes first */
        for (uint32_t i = 0; i < planned->files_count; i++) {
            const struct planned_file *file = &planned->files[i];
            if (file->is_kitchen != (pass == 1))
                continue;
            if (!kitchen_add_file(kitchen, file->path, file->requested, file->is_kitchen))
                return STATUS_NO_MEMORY;
            kitchen->files[kitchen->files_count - 1].is_refused = file->is_refused;
        }
    }
    return STATUS_OK;
}

/* The flow. */
enum status session_kitchen(struct quern_session *session, const struct planned_kitchen *planned)
{
    struct telling *telling = &session->telling;
    struct kitchen kitchen;
    kitchen_open(&kitchen, session->allocator, &session->library, worker_count(session, planned->files_count));
    kitchen.root = planned->root;
    kitchen.allowed = session->options.allowed;
    kitchen.allowed_count = session->options.allowed_count;
    kitchen.variation = session->options.variation;
    kitchen.today = session->today;
    kitchen.spoon_error = session->options.spoon_error < LIMIT_SPOON_ERROR ? amount_larger(0, session->options.spoon_error) : LIMIT_SPOON_ERROR;
    enum status status = kitchen.failed ? STATUS_NO_MEMORY : add_files(&kitchen, planned);
    if (status == STATUS_OK)
        status = kitchen_read(&kitchen, telling->given);
    if (status == STATUS_OK)
        status = kitchen_link(&kitchen);
    if (status == STATUS_OK)
        status = kitchen_judge(&kitchen);
    if (status == STATUS_OK)
        status = telling->kitchen(telling, &kitchen);
    if (status == STATUS_NO_MEMORY)
        session_no_memory(telling);
    if (status == STATUS_OK)
        status = telling_unread(telling, &kitchen);
    kitchen_close(&kitchen);
    return status;
}

/* ---- one call ------------------------------------------------------------------------------------------------ */

struct telling *session_start(struct quern_session *session, enum quern_form form, quern_sink *sink, void *context)
{
    struct telling *telling = &session->telling;
    atomic_store(&session->memory.failed, false);
    *telling = (struct telling){ .allocator = session->allocator, .memory = &session->memory, .form = form, .strict = session->options.strict,
                                 .colour = session->options.colour, .first_recipe = true, .first_finding = true, .first_claims = true,
                                 .day = session->options.dated && session->today ? session->day : NULL, .panel = session->options.panel, .kitchen = telling_kitchen };
    writer_open(&telling->writer, session->allocator, sink, context);
    buffer_open(&telling->all_findings, session->allocator);
    buffer_open(&telling->all_days, session->allocator);
    buffer_open(&telling->all_weeks, session->allocator);
    buffer_open(&telling->all_claims, session->allocator);
    table_open(&telling->names_taken, session->allocator);
    return telling;
}

/* Flushes and turns the status of the work into that of the call. */
enum quern_status session_answer(struct telling *telling, enum status status)
{
    telling_end_document(telling);
    bool sent = writer_flush(&telling->writer);
    int reason = errno;
    bool no_room = telling->writer.buffer.failed || telling->all_findings.failed || telling->all_days.failed || telling->all_weeks.failed
                || telling->all_claims.failed || atomic_load(&telling->memory->failed);
    writer_close(&telling->writer);
    buffer_close(&telling->all_findings);
    buffer_close(&telling->all_days);
    buffer_close(&telling->all_weeks);
    buffer_close(&telling->all_claims);
    table_close(&telling->names_taken);
    index_close(telling);
    if (status == STATUS_OK && (!sent || no_room))
        status = no_room ? session_no_memory(telling)
                         : telling_fail(telling, STATUS_IO, "the output cannot be written", strerror(reason));
    if (status == STATUS_OK)
        return telling->errors ? QUERN_FINDINGS : QUERN_OK;
    if (telling->folder_made)
        rmdir(telling->folder);                     /* where no report is in it */
    if (!telling->failure[0])
        telling_fail(telling, status, "the output cannot be written", strerror(reason));
    return QUERN_FAILED;
}

void session_plan(const struct quern_session *session, struct plan *plan)
{
    plan_open(plan, session->allocator);
    plan->follow_links = session->options.follow_links;
}

enum status session_paths(struct telling *telling, struct plan *plan, const char *const *paths, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        enum status status = plan_add(plan, paths[i]);
        if (status == STATUS_NO_MEMORY)
            return session_no_memory(telling);
        if (status != STATUS_OK)
            return telling_fail(telling, status, plan->failed_path,
                                plan->is_refused ? PATH_REFUSED_WORDS : plan->too_deep ? "it lies more than 64 folders deep; nothing there was read" : plan->reason ? strerror(plan->reason) : "no .quern file is in this folder");
    }
    return STATUS_OK;
}

static void finish_json(struct telling *telling)
{
    struct writer *writer = &telling->writer;
    if (telling->form != QUERN_AS_JSON || telling->folder)
        return;
    if (telling->report) {
        telling_json_days(telling, writer);
        writer_print(writer, "],\"findings\":[");
    } else {
        writer_print(writer, "{\"quern\":\"%s\",\"schema\":%d,\"findings\":[", quern_version(), JSON_VERSION);
    }
    writer_add(writer, (struct text){ telling->all_findings.bytes, (uint32_t)telling->all_findings.length });
    if (telling->claims) {
        writer_add(writer, text_of("],\"claims\":["));
        writer_add(writer, (struct text){ telling->all_claims.bytes, (uint32_t)telling->all_claims.length });
    }
    writer_add(writer, text_of("]}\n"));
}

/* What stands in the folder now, and what the findings in the reports come to. */
static void tell_folder(struct telling *telling)
{
    writer_print(&telling->writer, "%zu %s in ", telling->files_written, telling->files_written == 1 ? "report" : "reports");
    writer_visible(&telling->writer, text_of(telling->folder));
    writer_add(&telling->writer, text_of("\n"));
    people_summary(&telling->writer, telling->errors, telling->warnings, telling->notes);
}

/* What was begun is half a document: nothing of it goes out. */
static enum status no_such_recipe(struct telling *telling)
{
    if (telling->form == QUERN_AS_JSON || telling->form == QUERN_AS_JSONLD)
        telling->writer.buffer.length = 0;
    return telling_fail(telling, STATUS_USAGE, "no recipe, day or week is called", telling->only);
}

enum status session_kitchens(struct quern_session *session, const char *const *paths, size_t count)
{
    struct plan plan;
    enum status status = session_library(session);
    session_plan(session, &plan);
    if (status == STATUS_OK)
        status = session_paths(&session->telling, &plan, paths, count);
    session->telling.kitchens = plan.kitchens_count;
    for (uint32_t i = 0; i < plan.kitchens_count && status == STATUS_OK; i++)
        status = session_kitchen(session, &plan.kitchens[i]);
    plan_close(&plan);
    return status;
}

static enum quern_status run(struct quern_session *session, const char *const *paths, size_t count)
{
    struct telling *telling = &session->telling;
    if (telling->report && telling->form == QUERN_AS_JSON && !telling->folder)
        telling_json_head(&telling->writer);
    if (telling->report && telling->form == QUERN_AS_JSONLD && !telling->folder)
        jsonld_head(&telling->writer);
    enum status status = session_kitchens(session, paths, count);
    if (status == STATUS_OK && telling->only && !telling->found_recipe)
        status = no_such_recipe(telling);
    if (status == STATUS_OK)
        finish_json(telling);
    if (status == STATUS_OK && telling->form == QUERN_AS_JSONLD && !telling->folder)
        jsonld_tail(&telling->writer);
    if (status == STATUS_OK && telling->form == QUERN_AS_TEXT && !telling->report)
        people_summary(&telling->writer, telling->errors, telling->warnings, telling->notes);
    if (status == STATUS_OK && telling->folder)
        status = index_write(telling);
    if (status == STATUS_OK && telling->folder)
        tell_folder(telling);
    return session_answer(telling, status);
}

enum quern_status quern_check(struct quern_session *session, const char *const *paths, size_t count,
                              enum quern_form form, quern_sink *sink, void *context)
{
    session_start(session, form, sink, context)->claims = session->options.claims;
    return run(session, paths, count);
}

enum quern_status quern_report(struct quern_session *session, const char *const *paths, size_t count,
                               const char *recipe, enum quern_form form, quern_sink *sink, void *context)
{
    struct telling *telling = session_start(session, form, sink, context);
    telling->report = true;
    telling->lines = session->options.lines;
    telling->only = recipe;
    return run(session, paths, count);
}

/* The folder of reports, without what a killed run left there. */
static bool start_folder(struct telling *telling)
{
    const char *folder = telling->folder;
    telling->folder_made = mkdir(folder, 0777) == 0;
    if (!telling->folder_made && errno != EEXIST)
        return telling_fail(telling, STATUS_IO, folder, strerror(errno)) == STATUS_OK;
    temporaries_clear(folder, telling->allocator);
    return true;
}

enum quern_status quern_report_to_folder(struct quern_session *session, const char *const *paths, size_t count,
                                         const char *recipe, enum quern_form form, const char *folder,
                                         quern_sink *sink, void *context)
{
    struct telling *telling = session_start(session, form, sink, context);
    telling->report = true;
    telling->lines = session->options.lines;
    telling->only = recipe;
    telling->folder = folder;
    telling->progress = session->options.progress;
    telling->progress_context = session->options.progress_context;
    if (!start_folder(telling))
        return session_answer(telling, STATUS_IO);
    return run(session, paths, count);
}

enum quern_status quern_handout(struct quern_session *session, const char *const *paths, size_t count, const struct quern_handout *wanted,
                                quern_sink *sink, void *context)
{
    struct handing handing = { .for_patients = wanted->for_patients, .servings = wanted->servings };
    struct telling *telling = session_start(session, wanted->form, sink, context);
    telling->report = true;
    telling->only = wanted->recipe;
    telling->folder = wanted->folder;
    telling->each = wanted->for_patients ? telling_handout : telling_scaled;
    telling->task = &handing;
    telling->large = wanted->for_patients;
    telling->skips_days = !wanted->for_patients;
    if (wanted->folder && !start_folder(telling))
        return session_answer(telling, STATUS_IO);
    return run(session, paths, count);
}

enum quern_status quern_check_text(struct quern_session *session, const char *name, const char *text, size_t length,
                                   enum quern_form form, quern_sink *sink, void *context)
{
    struct planned_file file = { .path = name, .requested = true };
    struct planned_kitchen planned = { .files = &file, .files_count = 1 };
    struct telling *telling = session_start(session, form, sink, context);
    enum status status = session_library(session);
    telling->given = (struct text){ text, (uint32_t)length };
    if (status == STATUS_OK && length > LIMIT_FILE_BYTES)
        status = telling_fail(telling, STATUS_LIMIT, name, "larger than 64 MiB");
    if (status == STATUS_OK)
        status = session_kitchen(session, &planned);
    if (status == STATUS_OK)
        finish_json(telling);
    return session_answer(telling, status);
}

/* ---- stages ---------------------------------------------------------------------------------------------------- */

/* Tokens and trees are shown straight from the file. */
static enum status show_text(struct telling *telling, const char *path)
{
    struct arena arena;
    struct findings findings;
    struct buffer buffer;
    arena_open(&arena, telling->allocator);
    buffer_open(&buffer, telling->allocator);
    findings_open(&findings, &arena);
    bool is_input = strcmp(path, "-") == 0;
    enum status status = is_input ? file_read_input(LIMIT_FILE_BYTES, &buffer)
                                  : file_read(AT_FDCWD, path, LIMIT_FILE_BYTES, &buffer);
    if (status != STATUS_OK)
        telling_fail(telling, status, path, status == STATUS_LIMIT ? "larger than 64 MiB" : strerror(errno));
    else if (strcmp(telling->stage, "tokens") == 0)
        status = show_tokens(&telling->writer, telling->allocator, &findings, buffer.bytes, (uint32_t)buffer.length);
    else
        status = show_tree(&telling->writer, telling->allocator, &findings, buffer.bytes, (uint32_t)buffer.length);
    buffer_close(&buffer);
    arena_close(&arena);
    return status;
}

enum quern_status quern_show(struct quern_session *session, const char *stage, const char *path, quern_sink *sink,
                             void *context)
{
    bool of_text = strcmp(stage, "tokens") == 0 || strcmp(stage, "tree") == 0;
    bool of_recipes = strcmp(stage, "names") == 0 || strcmp(stage, "amounts") == 0 || strcmp(stage, "limits") == 0;
    struct telling *telling = session_start(session, QUERN_AS_TEXT, sink, context);
    telling->report = true;
    telling->stage = stage;
    if (of_text)
        return session_answer(telling, show_text(telling, path));
    if (!of_recipes)
        return session_answer(telling, telling_fail(telling, STATUS_USAGE, stage,
                                            "no stage has this name: tokens, tree, names, amounts, limits"));
    return run(session, &path, 1);
}
