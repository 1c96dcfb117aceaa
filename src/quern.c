/* The whole flow. For each kitchen that the paths mean: read and collect every file, link names, resolve lines,
 * add up the recipes that others are made from, then add up and judge each recipe, and hand what there is to say
 * to an output. Threads share the files in the first pass and the recipes in the second. */
#include "quern.h"

#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "judge/judge.h"
#include "model/folder.h"
#include "output/output.h"

extern const unsigned char quern_stdlib_pack[];

struct quern_session {
    struct allocator allocator;
    struct quern_options options;
    struct library library;
    void *pack;                     /* read from options.library_path */
    struct buffer pack_bytes;
    bool library_is_open;
    char failure[512];
    size_t errors, warnings, notes;
};

/* What is done with each kitchen once it has been checked. */
struct job {
    struct quern_session *session;
    const char *only;               /* name of the one recipe that is wanted, or NULL */
    enum quern_form form;
    bool report;
    struct writer writer;
    struct buffer all_findings;     /* JSON of all findings, which stands behind the recipes */
    const char *folder;             /* reports go into files of their own here, or NULL */
    bool first_recipe, first_finding, found_recipe;
    struct text given;              /* text that was handed over, or no bytes */
    const char *stage;              /* only show what this stage left */
};

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
    *session = (struct quern_session){ .allocator = allocator };
    if (options)
        session->options = *options;
    buffer_open(&session->pack_bytes, allocator);
    return session;
}

void quern_close(struct quern_session *session)
{
    if (!session)
        return;
    struct allocator allocator = session->allocator;
    buffer_close(&session->pack_bytes);
    allocator.resize(allocator.context, session, 0);
}

const char *quern_failure(const struct quern_session *session)
{
    return session->failure;
}

void quern_counts(const struct quern_session *session, size_t *errors, size_t *warnings, size_t *notes)
{
    *errors = session->errors;
    *warnings = session->warnings;
    *notes = session->notes;
}

static enum status fail(struct quern_session *session, enum status status, const char *what, const char *why)
{
    int length = snprintf(session->failure, sizeof session->failure, "%.400s%s%s", what, why ? ": " : "", why ? why : "");
    return length < 0 ? STATUS_IO : status;
}

static enum status no_memory(struct quern_session *session)
{
    return fail(session, STATUS_NO_MEMORY, "out of memory", NULL);
}

static enum status open_pack_file(struct quern_session *session)
{
    const char *path = session->options.library_path;
    enum status status = file_read(AT_FDCWD, path, (size_t)1 << 30, &session->pack_bytes);
    if (status == STATUS_NO_MEMORY)
        return no_memory(session);
    if (status != STATUS_OK)
        return fail(session, status, path, strerror(errno));
    if (pack_verify(session->pack_bytes.bytes, session->pack_bytes.length) != STATUS_OK)
        return fail(session, STATUS_BAD_PACK, path, "this is no library pack, or it is damaged or of another version");
    library_view(&session->library, session->pack_bytes.bytes, NULL);
    return STATUS_OK;
}

/* The embedded pack was verified when the program was built. */
static enum status open_library(struct quern_session *session)
{
    enum status status = STATUS_OK;
    session->failure[0] = '\0';
    if (session->library_is_open)
        return STATUS_OK;
    if (session->options.library_path)
        status = open_pack_file(session);
    else
        library_view(&session->library, quern_stdlib_pack, NULL);
    session->library_is_open = status == STATUS_OK;
    return status;
}

/* ---- first pass: files to records ------------------------------------------------------------------------------ */

static enum words_code unreadable_code(enum status status)
{
    return status == STATUS_LIMIT ? FINDING_FILE_TOO_LARGE : FINDING_UNREADABLE;
}

/* Standard input cannot be read a second time to show its lines. */
static bool keep_input(struct kitchen *kitchen, const struct buffer *buffer)
{
    kitchen->input = (struct text){ arena_copy(&kitchen->arena, buffer->bytes, buffer->length), (uint32_t)buffer->length };
    return kitchen->input.bytes != NULL;
}

static enum status read_file(struct gathering *gathering, uint32_t number)
{
    struct kitchen_file *file = &gathering->kitchen->files[number];
    bool is_input = strcmp(file->path, "-") == 0;
    enum status status = is_input ? file_read_input(LIMIT_FILE_BYTES, &gathering->buffer)
                                  : file_read(AT_FDCWD, file->path, LIMIT_FILE_BYTES, &gathering->buffer);
    if (status == STATUS_NO_MEMORY)
        return status;
    if (status != STATUS_OK) {
        file->status = status;
        file->reason = errno;
        finding_add(&gathering->findings, unreadable_code(status), (struct place){ number, { 0, 0 } },
                    GAPS(text_of(strerror(errno))));
        return STATUS_OK;
    }
    if (is_input && !keep_input(gathering->kitchen, &gathering->buffer))
        return STATUS_NO_MEMORY;
    return gathering_read(gathering, number, gathering->buffer.bytes, (uint32_t)gathering->buffer.length);
}

/* Work that threads share: each takes the next few numbers until there are none. */
struct sharing {
    struct kitchen *kitchen;
    atomic_uint next;
    uint32_t end;
    enum status (*work)(struct gathering *gathering, uint32_t number);
};

struct worker {
    struct sharing *sharing;
    struct gathering *gathering;
    enum status status;
};

#define SHARE 16

static void *work_along(void *context)
{
    struct worker *worker = context;
    struct sharing *sharing = worker->sharing;
    for (;;) {
        uint32_t first = atomic_fetch_add(&sharing->next, SHARE);
        for (uint32_t i = first; i < first + SHARE && i < sharing->end; i++) {
            if (worker->status == STATUS_OK)
                worker->status = sharing->work(worker->gathering, i);
        }
        if (first + SHARE >= sharing->end)
            return NULL;
    }
}

static enum status run_workers(struct worker *workers, uint32_t count)
{
    pthread_t threads[LIMIT_JOBS];
    bool started[LIMIT_JOBS] = { false };
    enum status status = STATUS_OK;
    for (uint32_t i = 1; i < count; i++)
        started[i] = pthread_create(&threads[i], NULL, work_along, &workers[i]) == 0;
    work_along(&workers[0]);
    for (uint32_t i = 1; i < count; i++) {
        if (started[i])
            pthread_join(threads[i], NULL);
    }
    for (uint32_t i = 0; i < count; i++)
        status = status == STATUS_OK ? workers[i].status : status;
    return status;
}

static enum status share_files(struct kitchen *kitchen, uint32_t first)
{
    struct worker workers[LIMIT_JOBS];
    struct sharing sharing = { .kitchen = kitchen, .end = kitchen->files_count, .work = read_file };
    atomic_init(&sharing.next, first);
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        workers[i] = (struct worker){ &sharing, &kitchen->gatherings[i], STATUS_OK };
    return run_workers(workers, kitchen->gatherings_count);
}

static bool add_kitchen_file(struct kitchen *kitchen, const char *path, bool requested, bool is_kitchen)
{
    if (!path || !array_grow(&kitchen->allocator, &kitchen->files, kitchen->files_count, &kitchen->files_capacity,
                             sizeof *kitchen->files))
        return false;
    kitchen->files[kitchen->files_count++] = (struct kitchen_file){ .path = path, .requested = requested,
                                                                    .is_kitchen = is_kitchen };
    return true;
}

/* `use "pantry/shop-labels.quern"`: a file from elsewhere joins the kitchen; its own findings are not asked for. */
static enum status add_used_files(struct kitchen *kitchen)
{
    for (uint32_t i = 0; i < kitchen->uses_count; i++) {
        const struct follow *use = &kitchen->uses[i];
        const char *from = kitchen->files[use->place.file].path, *slash = strrchr(from, '/');
        int folder = slash ? (int)(slash - from + 1) : 0;
        if (use->name.length == 0 || use->name.bytes[0] == '/') {
            finding_add(&kitchen->gatherings[0].findings, FINDING_USE_OUTSIDE, use->place, GAPS(use->name));
            continue;
        }
        char *path = arena_print(&kitchen->arena, "%.*s%.*s", folder, from, (int)use->name.length, use->name.bytes);
        struct stat facts;
        if (path && (stat(path, &facts) != 0 || !S_ISREG(facts.st_mode)))
            finding_add(&kitchen->gatherings[0].findings, FINDING_MISSING_USED_FILE, use->place,
                        GAPS(use->name, text_of(strerror(errno))));
        else if (!add_kitchen_file(kitchen, path, false, false))
            return STATUS_NO_MEMORY;
    }
    return STATUS_OK;
}

/* kitchen.quern is read first: it may name further files. */
static enum status read_files(struct kitchen *kitchen, struct text given)
{
    uint32_t first = 0;
    enum status status = STATUS_OK;
    if (given.bytes) {
        struct gathering *gathering = &kitchen->gatherings[0];
        if (!buffer_reserve(&gathering->buffer, given.length + 2))
            return STATUS_NO_MEMORY;
        memcpy(gathering->buffer.bytes, given.bytes, given.length);
        memset(gathering->buffer.bytes + given.length, 0, 2);
        return gathering_read(gathering, 0, gathering->buffer.bytes, given.length);
    }
    if (kitchen->files_count && (kitchen->files[0].is_kitchen || kitchen->files_count == 1)) {
        status = read_file(&kitchen->gatherings[0], 0);
        first = 1;
    }
    if (status == STATUS_OK)
        status = add_used_files(kitchen);
    return status == STATUS_OK && kitchen->files_count > first ? share_files(kitchen, first) : status;
}

/* ---- second pass: recipes that others are made from, in order of reference ------------------------------------- */

/* Marks every recipe that a line of a gathering names; each tail is resolved on the way. */
static enum status resolve_gathering(struct gathering *gathering, uint32_t number)
{
    const struct resolved *resolved = tail_resolve(gathering, number);
    return resolved ? STATUS_OK : STATUS_NO_MEMORY;
}

static void *resolve_all(void *context)
{
    struct worker *worker = context;
    for (uint32_t i = 0; i < worker->gathering->tails_count && worker->status == STATUS_OK; i++)
        worker->status = resolve_gathering(worker->gathering, i);
    return NULL;
}

static enum status run_each(struct kitchen *kitchen, void *(*work)(void *))
{
    struct worker workers[LIMIT_JOBS];
    pthread_t threads[LIMIT_JOBS];
    bool started[LIMIT_JOBS] = { false };
    enum status status = STATUS_OK;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        workers[i] = (struct worker){ NULL, &kitchen->gatherings[i], STATUS_OK };
    for (uint32_t i = 1; i < kitchen->gatherings_count; i++)
        started[i] = pthread_create(&threads[i], NULL, work, &workers[i]) == 0;
    work(&workers[0]);
    for (uint32_t i = 1; i < kitchen->gatherings_count; i++) {
        if (started[i])
            pthread_join(threads[i], NULL);
        else
            work(&workers[i]);
    }
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        status = status == STATUS_OK ? workers[i].status : status;
    return status;
}

/* The way from a recipe to those it is made from. */
struct chain {
    struct kitchen *kitchen;
    struct sums sums;
    struct recipe_at path[LIMIT_RECIPE_DEPTH];
    const struct line *lines[LIMIT_RECIPE_DEPTH];       /* the line in each that leads on */
    uint32_t depth;
    enum status status;
};

static struct place line_place(struct recipe_at at, const struct line *line)
{
    struct place place = { at.recipe->file, { line->start, line->tail_start } };
    place.span.end += at.gathering->tails[line->tail].text.length;
    return place;
}

/* One finding for a cycle, with a label at every line on it. */
static void report_cycle(struct chain *chain, struct recipe_at again)
{
    struct findings *findings = &chain->kitchen->gatherings[0].findings;
    uint32_t first = 0;
    while (first < chain->depth && chain->path[first].recipe != again.recipe)
        first++;
    if (first == chain->depth)
        return;
    struct place title = { again.recipe->file, again.recipe->title };
    struct finding *finding = finding_add(findings, FINDING_RECIPE_CYCLE, title, GAPS(again.recipe->name));
    for (uint32_t i = first; i < chain->depth; i++) {
        struct text next = i + 1 < chain->depth ? chain->path[i + 1].recipe->name : again.recipe->name;
        finding_label(findings, finding, line_place(chain->path[i], chain->lines[i]), WORDS_CYCLE_STEP, GAPS(next));
    }
}

enum { RECIPE_NEW, RECIPE_OPEN, RECIPE_DONE };

static void total_source(struct chain *chain, struct recipe_at at);

static void total_those_within(struct chain *chain, struct recipe_at at)
{
    for (uint32_t i = 0; i < at.recipe->line_count && chain->status == STATUS_OK; i++) {
        const struct line *line = &at.gathering->lines[at.recipe->first_line + i];
        const struct resolved *resolved = line->tail == NONE_INDEX ? NULL : at.gathering->tails[line->tail].resolved;
        if (!resolved || resolved->subject != SUBJECT_RECIPE)
            continue;
        chain->lines[chain->depth - 1] = line;
        total_source(chain, resolved->recipe);
    }
}

static void keep_total(struct chain *chain, struct recipe_at at)
{
    size_t size = offsetof(struct amounts, column) + chain->kitchen->library->column_count * sizeof(struct range);
    chain->status = sums_compute(&chain->sums, at);
    struct amounts *total = chain->status == STATUS_OK ? arena_take(&chain->kitchen->arena, size) : NULL;
    if (!total) {
        chain->status = STATUS_NO_MEMORY;
        return;
    }
    memcpy(total, &chain->sums.total, size);
    at.recipe->total = total;
}

static void total_source(struct chain *chain, struct recipe_at at)
{
    if (at.recipe->walk == RECIPE_DONE)
        return;
    if (at.recipe->walk == RECIPE_OPEN) {
        report_cycle(chain, at);
        return;
    }
    if (chain->depth == LIMIT_RECIPE_DEPTH) {
        finding_add(&chain->kitchen->gatherings[0].findings, FINDING_RECIPE_TOO_DEEP,
                    (struct place){ at.recipe->file, at.recipe->title }, GAPS(at.recipe->name));
        return;
    }
    at.recipe->walk = RECIPE_OPEN;
    chain->path[chain->depth++] = at;
    total_those_within(chain, at);
    chain->depth--;
    at.recipe->walk = RECIPE_DONE;
    if (chain->status == STATUS_OK)
        keep_total(chain, at);
}

static void total_sources_of(struct chain *chain, const struct gathering *gathering)
{
    for (uint32_t i = 0; i < gathering->tails_count && chain->status == STATUS_OK; i++) {
        const struct resolved *resolved = gathering->tails[i].resolved;
        if (resolved && resolved->subject == SUBJECT_RECIPE)
            total_source(chain, resolved->recipe);
    }
}

static enum status total_sources(struct kitchen *kitchen)
{
    struct chain chain = { .kitchen = kitchen, .status = STATUS_OK };
    sums_open(&chain.sums, kitchen->allocator);
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        total_sources_of(&chain, &kitchen->gatherings[i]);
    sums_close(&chain.sums);
    return chain.status;
}

/* ---- second pass: each recipe ------------------------------------------------------------------------------------- */

static enum status judge_one(struct gathering *gathering, struct recipe *recipe, struct sums *sums,
                             struct verdicts *verdicts)
{
    enum status status = sums_compute(sums, (struct recipe_at){ gathering, recipe });
    if (status != STATUS_OK)
        return status;
    recipe_speak(sums, &gathering->findings);
    return recipe_judge(sums, verdicts, &gathering->findings);
}

static void *judge_all(void *context)
{
    struct worker *worker = context;
    struct gathering *gathering = worker->gathering;
    struct sums sums;
    struct verdicts verdicts = { 0 };
    sums_open(&sums, gathering->kitchen->allocator);
    for (uint32_t i = 0; i < gathering->recipes_count && worker->status == STATUS_OK; i++)
        worker->status = judge_one(gathering, &gathering->recipes[i], &sums, &verdicts);
    sums_close(&sums);
    verdicts_close(&verdicts, gathering->kitchen->allocator);
    return NULL;
}

static void check_follows(struct kitchen *kitchen)
{
    struct gathering *owner;
    for (uint32_t i = 0; i < kitchen->follows_count; i++) {
        if (!kitchen_policy(kitchen, kitchen->follows[i].name, &owner))
            finding_add(&kitchen->gatherings[0].findings, FINDING_UNKNOWN_POLICY, kitchen->follows[i].place,
                        GAPS(kitchen->follows[i].name));
    }
}

static enum status check_kitchen(struct kitchen *kitchen, struct text given)
{
    enum status status = read_files(kitchen, given);
    if (status == STATUS_OK)
        status = kitchen_link(kitchen);
    if (status == STATUS_OK)
        status = run_each(kitchen, resolve_all);
    if (status == STATUS_OK)
        status = total_sources(kitchen);
    if (status == STATUS_OK)
        status = run_each(kitchen, judge_all);
    if (status == STATUS_OK)
        check_follows(kitchen);
    return status;
}

/* ---- what there is to say -------------------------------------------------------------------------------------------- */

static uint32_t count_findings(const struct kitchen *kitchen)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        count += kitchen->gatherings[i].findings.count;
    return count;
}

/* All findings of requested files in order of place, joined from the gatherings. */
static struct finding **join_findings(struct kitchen *kitchen, uint32_t *count)
{
    struct findings all;
    findings_open(&all, &kitchen->arena);
    *count = 0;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
        struct findings *own = &kitchen->gatherings[i].findings;
        if (own->failed)
            return NULL;
        if (!own->first)
            continue;
        if (all.last)
            all.last->next = own->first;
        else
            all.first = own->first;
        all.last = own->last;
    }
    all.count = count_findings(kitchen);
    struct finding **sorted = findings_sorted(&all);
    for (uint32_t i = 0; sorted && i < all.count; i++) {
        if (sorted[i]->place.file == FILE_NONE || kitchen->files[sorted[i]->place.file].requested)
            sorted[(*count)++] = sorted[i];
    }
    return sorted;
}

static void count_severity(struct quern_session *session, enum severity severity)
{
    session->errors += severity == SEVERITY_ERROR;
    session->warnings += severity == SEVERITY_WARNING;
    session->notes += severity == SEVERITY_NOTE;
}

static void tell_finding(struct job *job, struct showing *showing, const struct finding *finding)
{
    count_severity(job->session, shown_severity(showing, finding));
    if (job->form == QUERN_AS_JSON) {
        struct writer collect = { .buffer = job->all_findings };
        if (!job->first_finding)
            buffer_add_string(&collect.buffer, ",");
        job->first_finding = false;
        json_finding(showing, &collect, finding);
        job->all_findings = collect.buffer;
    } else if (!job->report) {
        people_finding(showing, finding);
    }
}

/* ---- reports ------------------------------------------------------------------------------------------------------------ */

static bool is_wanted(const struct job *job, const struct kitchen *kitchen, struct recipe_at at)
{
    if (!kitchen->files[at.recipe->file].requested)
        return false;
    return !job->only || kitchen_recipe(kitchen, text_of(job->only)).recipe == at.recipe
        || text_is(at.recipe->name, job->only);
}

/* The findings inside a recipe's block; `at` is the first that may be. */
static uint32_t findings_within(struct finding *const *findings, uint32_t count, uint32_t *at, const struct recipe *recipe)
{
    while (*at < count && (findings[*at]->place.file < recipe->file
                           || (findings[*at]->place.file == recipe->file
                               && findings[*at]->place.span.start < recipe->whole.start)))
        ++*at;
    uint32_t end = *at;
    while (end < count && findings[end]->place.file == recipe->file && findings[end]->place.span.start < recipe->whole.end)
        end++;
    return end - *at;
}

static void show_recipe(const struct job *job, struct showing *showing, const struct sums *sums,
                        const struct verdicts *verdicts)
{
    writer_print(showing->writer, "# ");
    writer_visible(showing->writer, sums->at.recipe->name);
    writer_print(showing->writer, "\n");
    if (strcmp(job->stage, "names") == 0)
        show_names(showing, sums);
    else if (strcmp(job->stage, "amounts") == 0)
        show_amounts(showing, sums);
    else
        show_limits(showing, verdicts);
}

static void write_recipe(struct job *job, struct showing *showing, const struct sums *sums, const struct verdicts *verdicts,
                         struct finding *const *findings, uint32_t count)
{
    if (job->stage) {
        show_recipe(job, showing, sums, verdicts);
    } else if (job->form == QUERN_AS_JSON) {
        if (!job->first_recipe)
            writer_add(showing->writer, text_of(","));
        json_recipe(showing, sums, verdicts, findings, count);
    } else {
        text_recipe(showing, sums, verdicts, findings, count);
    }
    job->first_recipe = false;
}

static bool write_to_stream(void *context, const char *bytes, size_t length)
{
    return fwrite(bytes, 1, length, context) == length;
}

/* A file name from a recipe's name: letters and digits, the rest as hyphens. */
static void make_file_name(char *storage, size_t size, struct text name, enum quern_form form)
{
    size_t used = 0;
    for (uint32_t i = 0; i < name.length && used + 8 < size; i++) {
        unsigned char byte = (unsigned char)name.bytes[i];
        bool letter = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || (byte >= '0' && byte <= '9') || byte >= 0x80;
        if (letter)
            storage[used++] = byte >= 'A' && byte <= 'Z' ? (char)(byte + 32) : (char)byte;
        else if (used > 0 && storage[used - 1] != '-')
            storage[used++] = '-';
    }
    while (used > 0 && storage[used - 1] == '-')
        used--;
    snprintf(storage + used, size - used, "%s%s", used ? "" : "recipe", form == QUERN_AS_JSON ? ".json" : ".txt");
}

static void print_json_head(struct writer *writer)
{
    writer_print(writer, "{\"quern\":\"%s\",\"schema\":1,\"recipes\":[", quern_version());
}

static enum status write_recipe_file(struct job *job, struct showing *showing, const struct sums *sums,
                                     const struct verdicts *verdicts, struct finding *const *findings, uint32_t count)
{
    char name[256], path[4608];
    struct output_file file;
    struct writer writer;
    make_file_name(name, sizeof name, sums->at.recipe->name, job->form);
    snprintf(path, sizeof path, "%s/%s", job->folder, name);
    enum status status = output_file_open(&file, job->session->allocator, path);
    if (status != STATUS_OK)
        return fail(job->session, status, path, strerror(errno));
    writer_open(&writer, job->session->allocator, write_to_stream, file.stream);
    showing->writer = &writer;
    job->first_recipe = true;
    if (job->form == QUERN_AS_JSON)
        print_json_head(&writer);
    write_recipe(job, showing, sums, verdicts, findings, count);
    if (job->form == QUERN_AS_JSON) {
        writer_add(&writer, text_of("],\"findings\":["));
        for (uint32_t i = 0; i < count; i++) {
            writer_add(&writer, text_of(i ? "," : ""));
            json_finding(showing, &writer, findings[i]);
        }
        writer_add(&writer, text_of("]}\n"));
    }
    bool good = writer_flush(&writer);
    writer_close(&writer);
    showing->writer = &job->writer;
    if (!good)
        output_file_abandon(&file);
    else
        status = output_file_finish(&file);
    return good && status == STATUS_OK ? STATUS_OK : fail(job->session, STATUS_IO, path, strerror(errno));
}

static enum status report_recipes(struct job *job, struct showing *showing, struct finding *const *findings, uint32_t count)
{
    const struct kitchen *kitchen = showing->kitchen;
    struct sums sums;
    struct verdicts verdicts = { 0 };
    enum status status = STATUS_OK;
    uint32_t at = 0;
    sums_open(&sums, kitchen->allocator);
    for (uint32_t i = 0; i < kitchen->recipes_count && status == STATUS_OK; i++) {
        uint32_t within = findings_within(findings, count, &at, kitchen->recipes[i].recipe);
        if (!is_wanted(job, kitchen, kitchen->recipes[i]))
            continue;
        job->found_recipe = true;
        status = sums_compute(&sums, kitchen->recipes[i]);
        if (status == STATUS_OK)
            status = recipe_judge(&sums, &verdicts, NULL);
        if (status == STATUS_OK && job->folder)
            status = write_recipe_file(job, showing, &sums, &verdicts, findings + at, within);
        else if (status == STATUS_OK)
            write_recipe(job, showing, &sums, &verdicts, findings + at, within);
        if (job->writer.failed)
            status = STATUS_IO;
    }
    sums_close(&sums);
    verdicts_close(&verdicts, kitchen->allocator);
    return status;
}

/* Findings that stand in no recipe follow the reports of the kitchen. */
static void tell_rest(struct job *job, struct showing *showing, struct finding *const *findings, uint32_t count)
{
    const struct kitchen *kitchen = showing->kitchen;
    uint32_t at = 0, told = 0;
    for (uint32_t i = 0; i < kitchen->recipes_count; i++) {
        uint32_t before = at;
        uint32_t within = findings_within(findings, count, &at, kitchen->recipes[i].recipe);
        for (uint32_t j = before; j < at; j++)
            people_finding(showing, findings[j]);
        told += at - before;
        at += within;
    }
    for (; at < count; at++)
        people_finding(showing, findings[at]);
    (void)told;
    (void)job;
}

static enum status tell_kitchen(struct job *job, struct kitchen *kitchen)
{
    uint32_t count;
    struct finding **findings = join_findings(kitchen, &count);
    struct showing showing = { .kitchen = kitchen, .writer = &job->writer, .strict = job->session->options.strict,
                               .colour = job->session->options.colour };
    if (!findings)
        return no_memory(job->session);
    sources_open(&showing.sources, kitchen, job->given.bytes ? job->given : kitchen->input);
    enum status status = job->report ? report_recipes(job, &showing, findings, count) : STATUS_OK;
    for (uint32_t i = 0; i < count && status == STATUS_OK; i++)
        tell_finding(job, &showing, findings[i]);
    if (status == STATUS_OK && job->report && job->form == QUERN_AS_TEXT && !job->folder && !job->stage)
        tell_rest(job, &showing, findings, count);
    bool failed = showing.sources.failed;
    sources_close(&showing.sources);
    return failed ? no_memory(job->session) : status;
}

/* ---- one kitchen, all kitchens ----------------------------------------------------------------------------------------------- */

static uint32_t worker_count(const struct quern_session *session, uint32_t files)
{
    uint32_t jobs = session->options.jobs ? session->options.jobs : 1;
    uint32_t useful = files / SHARE + 1;
    jobs = jobs > LIMIT_JOBS ? LIMIT_JOBS : jobs;
    return jobs < useful ? jobs : useful;
}

/* A file that was named and cannot be read means that the work was not done. */
static enum status unreadable_status(struct quern_session *session, const struct kitchen *kitchen)
{
    for (uint32_t i = 0; i < kitchen->files_count; i++) {
        const struct kitchen_file *file = &kitchen->files[i];
        if (file->status == STATUS_IO)
            return fail(session, STATUS_IO, file->path, strerror(file->reason));
    }
    return STATUS_OK;
}

static enum status do_kitchen(struct job *job, const struct planned_kitchen *planned)
{
    struct quern_session *session = job->session;
    struct kitchen kitchen;
    kitchen_open(&kitchen, session->allocator, &session->library, worker_count(session, planned->files_count));
    kitchen.root = planned->root;
    enum status status = kitchen.failed ? STATUS_NO_MEMORY : STATUS_OK;
    for (int pass = 1; pass >= 0; pass--) {             /* kitchen.quern comes first */
        for (uint32_t i = 0; i < planned->files_count && status == STATUS_OK; i++) {
            const struct planned_file *file = &planned->files[i];
            if (file->is_kitchen == (pass == 1) && !add_kitchen_file(&kitchen, file->path, file->requested, file->is_kitchen))
                status = STATUS_NO_MEMORY;
        }
    }
    if (status == STATUS_OK)
        status = check_kitchen(&kitchen, job->given);
    if (status == STATUS_OK)
        status = tell_kitchen(job, &kitchen);
    if (status == STATUS_NO_MEMORY)
        no_memory(session);
    if (status == STATUS_OK)
        status = unreadable_status(session, &kitchen);
    kitchen_close(&kitchen);
    return status;
}

static enum quern_status answer(struct job *job, enum status status)
{
    struct quern_session *session = job->session;
    bool sent = writer_flush(&job->writer);
    bool failed = job->writer.buffer.failed || job->all_findings.failed;
    writer_close(&job->writer);
    buffer_close(&job->all_findings);
    if (status == STATUS_OK && !sent)
        status = failed ? no_memory(session) : fail(session, STATUS_IO, "the output cannot be written", strerror(errno));
    if (status != STATUS_OK) {
        if (!session->failure[0])
            fail(session, status, "the output cannot be written", strerror(errno));
        return QUERN_FAILED;
    }
    return session->errors ? QUERN_FINDINGS : QUERN_OK;
}

static void start_job(struct job *job, struct quern_session *session, enum quern_form form, quern_sink *sink, void *context)
{
    job->session = session;
    job->form = form;
    job->first_recipe = job->first_finding = true;
    session->errors = session->warnings = session->notes = 0;
    writer_open(&job->writer, session->allocator, sink, context);
    buffer_open(&job->all_findings, session->allocator);
}

static enum status add_paths(struct quern_session *session, struct plan *plan, const char *const *paths, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        enum status status = plan_add(plan, paths[i]);
        if (status == STATUS_NO_MEMORY)
            return no_memory(session);
        if (status != STATUS_OK)
            return fail(session, status, plan->failed_path,
                        plan->reason ? strerror(plan->reason) : "no .quern file is in this folder");
    }
    return STATUS_OK;
}

static void finish_json(struct job *job)
{
    struct writer *writer = &job->writer;
    if (job->form != QUERN_AS_JSON || job->folder)
        return;
    writer_print(writer, job->report ? "],\"findings\":[" : "{\"quern\":\"%s\",\"schema\":1,\"findings\":[", quern_version());
    writer_add(writer, (struct text){ job->all_findings.bytes, (uint32_t)job->all_findings.length });
    writer_add(writer, text_of("]}\n"));
}

static enum quern_status run(struct job *job, const char *const *paths, size_t count)
{
    struct quern_session *session = job->session;
    struct plan plan;
    enum status status = open_library(session);
    plan_open(&plan, session->allocator);
    if (status == STATUS_OK)
        status = add_paths(session, &plan, paths, count);
    if (status == STATUS_OK && job->report && job->form == QUERN_AS_JSON && !job->folder)
        print_json_head(&job->writer);
    for (uint32_t i = 0; i < plan.kitchens_count && status == STATUS_OK; i++)
        status = do_kitchen(job, &plan.kitchens[i]);
    if (status == STATUS_OK && job->only && !job->found_recipe)
        status = fail(session, STATUS_USAGE, "no recipe is called", job->only);
    if (status == STATUS_OK) {
        finish_json(job);
        if (job->form == QUERN_AS_TEXT && !job->report)
            people_summary(&job->writer, session->errors, session->warnings, session->notes);
    }
    plan_close(&plan);
    return answer(job, status);
}

enum quern_status quern_check(struct quern_session *session, const char *const *paths, size_t count,
                              enum quern_form form, quern_sink *sink, void *context)
{
    struct job job = { 0 };
    start_job(&job, session, form, sink, context);
    return run(&job, paths, count);
}

enum quern_status quern_report(struct quern_session *session, const char *const *paths, size_t count,
                               const char *recipe, enum quern_form form, quern_sink *sink, void *context)
{
    struct job job = { .report = true, .only = recipe };
    start_job(&job, session, form, sink, context);
    return run(&job, paths, count);
}

static bool discard(void *context, const char *bytes, size_t length)
{
    (void)context;
    (void)bytes;
    (void)length;
    return true;
}

enum quern_status quern_report_to_folder(struct quern_session *session, const char *const *paths, size_t count,
                                         const char *recipe, enum quern_form form, const char *folder)
{
    struct job job = { .report = true, .only = recipe, .folder = folder };
    start_job(&job, session, form, discard, NULL);
    if (mkdir(folder, 0777) != 0 && errno != EEXIST)
        return answer(&job, fail(session, STATUS_IO, folder, strerror(errno)));
    return run(&job, paths, count);
}

enum quern_status quern_check_text(struct quern_session *session, const char *name, const char *text, size_t length,
                                   enum quern_form form, quern_sink *sink, void *context)
{
    struct job job = { .given = { text, (uint32_t)length } };
    struct planned_file file = { .path = name, .requested = true };
    struct planned_kitchen planned = { .files = &file, .files_count = 1 };
    start_job(&job, session, form, sink, context);
    enum status status = open_library(session);
    if (status == STATUS_OK && length > LIMIT_FILE_BYTES)
        status = fail(session, STATUS_LIMIT, name, "larger than 64 MiB");
    if (status == STATUS_OK)
        status = do_kitchen(&job, &planned);
    if (status == STATUS_OK)
        finish_json(&job);
    return answer(&job, status);
}

/* ---- stages ---- */

/* Tokens and trees are shown straight from the file. */
static enum status show_text(struct job *job, const char *path)
{
    struct arena arena;
    struct findings findings;
    struct buffer buffer;
    arena_open(&arena, job->session->allocator);
    buffer_open(&buffer, job->session->allocator);
    findings_open(&findings, &arena);
    bool is_input = strcmp(path, "-") == 0;
    enum status status = is_input ? file_read_input(LIMIT_FILE_BYTES, &buffer)
                                  : file_read(AT_FDCWD, path, LIMIT_FILE_BYTES, &buffer);
    if (status != STATUS_OK)
        fail(job->session, status, path, status == STATUS_LIMIT ? "larger than 64 MiB" : strerror(errno));
    else if (strcmp(job->stage, "tokens") == 0)
        status = show_tokens(&job->writer, job->session->allocator, &findings, buffer.bytes, (uint32_t)buffer.length);
    else
        status = show_tree(&job->writer, job->session->allocator, &findings, buffer.bytes, (uint32_t)buffer.length);
    buffer_close(&buffer);
    arena_close(&arena);
    return status;
}

enum quern_status quern_show(struct quern_session *session, const char *stage, const char *path, quern_sink *sink,
                             void *context)
{
    struct job job = { .report = true, .stage = stage };
    bool of_text = strcmp(stage, "tokens") == 0 || strcmp(stage, "tree") == 0;
    bool of_recipes = strcmp(stage, "names") == 0 || strcmp(stage, "amounts") == 0 || strcmp(stage, "limits") == 0;
    start_job(&job, session, QUERN_AS_TEXT, sink, context);
    if (of_text)
        return answer(&job, show_text(&job, path));
    if (!of_recipes)
        return answer(&job, fail(session, STATUS_USAGE, stage, "no stage has this name: tokens, tree, names, amounts, limits"));
    return run(&job, &path, 1);
}

/* ---- lookup ---------------------------------------------------------------------------------------------------------------------- */

static void print_near(struct writer *writer, const struct library *library, struct text words)
{
    struct near_name near[10];
    uint32_t count = library_near(library, 1u << SPACE_FOOD | 1u << SPACE_SHELF, words, near, COUNT_OF(near));
    writer_print(writer, "no food is called `");
    writer_visible(writer, words);
    writer_print(writer, count ? "`; near names are:\n" : "`, and no name lies near it\n");
    for (uint32_t i = 0; i < count; i++) {
        struct text name = library_text(near[i].library, near[i].name->written);
        writer_print(writer, "  %.*s\n", (int)name.length, name.bytes);
    }
}

static void print_shelf(struct writer *writer, struct text words, const struct library *owner, const struct shelf *shelf)
{
    writer_print(writer, "%.*s comes in kinds:\n", (int)words.length, words.bytes);
    for (uint32_t i = 0; i < shelf->kind_count; i++) {
        struct text kind = library_text(owner, owner->texts[shelf->first_kind + i]);
        writer_print(writer, "  %.*s\n", (int)kind.length, kind.bytes);
    }
}

enum quern_status quern_lookup(struct quern_session *session, const char *words, quern_sink *sink, void *context)
{
    struct job job = { 0 };
    char key[KEY_BYTES];
    start_job(&job, session, QUERN_AS_TEXT, sink, context);
    enum status status = open_library(session);
    if (status != STATUS_OK)
        return answer(&job, status);
    const struct shelf *shelf;
    struct text found = { key, name_key_of(text_of(words), false, key) };
    struct food_at food = library_food(&session->library, found);
    struct food_at on_shelf = library_shelf(&session->library, found, &shelf);
    session->errors = food.food || shelf ? 0 : 1;
    if (food.food)
        text_food(&job.writer, &session->library, food);
    else if (shelf)
        print_shelf(&job.writer, text_of(words), on_shelf.library, shelf);
    else
        print_near(&job.writer, &session->library, text_of(words));
    return answer(&job, STATUS_OK);
}
