/* The flow of an import: find the mapping, read the tables into finished foods, settle their names, write them. Nothing
 * appears before all of it went well. */
#include "import/import.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>

#include "import/parts.h"

#define MAPPING_BYTES ((size_t)1 << 20)
#define PREFIX_BYTES 100

/* ---- embedded mappings: stdlib/import ---------------------------------------------------------------------------------- */

extern const char quern_map_release[], quern_map_central[];

struct form {
    const char *name, *text;
};

static const struct form forms[] = { { "release", quern_map_release }, { "central", quern_map_central } };

static const char *embedded_mapping(const char *name)
{
    for (uint32_t i = 0; i < COUNT_OF(forms); i++) {
        if (strcmp(forms[i].name, name) == 0)
            return forms[i].text;
    }
    return NULL;
}

/* ---- which mapping ----------------------------------------------------------------------------------------------------------- */

static bool read_mapping(struct import *import, const char *path, const char *bytes, size_t length)
{
    enum status status = mapping_read(import, path, bytes, length);
    if (status != STATUS_OK || import->arena.failed)
        return trouble_memory(import);
    return import->status == STATUS_OK;
}

static bool read_map_file(struct import *import)
{
    struct buffer buffer;
    const char *path = import->request->map_path;
    buffer_open(&buffer, import->allocator);
    enum status status = file_read(AT_FDCWD, path, MAPPING_BYTES, &buffer);
    bool good = status == STATUS_OK;
    if (status == STATUS_NO_MEMORY)
        trouble_memory(import);
    else if (!good)
        trouble_stop(import, status, path, status == STATUS_LIMIT ? "larger than 1 MiB" : strerror(errno));
    good = good && read_mapping(import, path, buffer.bytes, buffer.length);
    buffer_close(&buffer);
    return good;
}

static bool has_foods(struct import *import)
{
    struct stat facts;
    struct text name = import->mapping.files[ROLE_FOODS].name;
    char *path = arena_print(&import->arena, "%s/%.*s", import->request->path, (int)name.length, name.bytes);
    return path && stat(path, &facts) == 0;
}

/* The first embedded mapping whose foods lie in the folder. */
static bool guess_mapping(struct import *import)
{
    for (uint32_t i = 0; i < COUNT_OF(forms); i++) {
        if (!read_mapping(import, forms[i].name, forms[i].text, strlen(forms[i].text)))
            return false;
        if (has_foods(import))
            return true;
        line_index_close(&import->lines);
        import->lines_made = false;
    }
    return trouble_stop(import, STATUS_USAGE, import->request->path,
                        "the form of these tables is not known; say with --map what their columns are");
}

static bool find_mapping(struct import *import)
{
    const struct import_request *request = import->request;
    const char *embedded = request->form ? embedded_mapping(request->form) : NULL;
    struct stat facts;
    if (stat(request->path, &facts) != 0)
        return trouble_stop(import, STATUS_IO, request->path, strerror(errno));
    if (request->form && !embedded && strcmp(request->form, "table") != 0)
        return trouble_stop(import, STATUS_USAGE, request->form, "no form has this name: release, central, table");
    if (request->map_path && embedded)
        return trouble_stop(import, STATUS_USAGE, request->form, "a form has its own mapping; leave out --form or --map");
    if (request->map_path)
        return read_map_file(import);
    if (embedded)
        return read_mapping(import, request->form, embedded, strlen(embedded));
    if (!request->form && S_ISDIR(facts.st_mode))
        return guess_mapping(import);
    return trouble_stop(import, STATUS_USAGE, request->path, "say with --map FILE what the columns of this table are");
}

/* ---- getting ready ----------------------------------------------------------------------------------------------------------- */

/* What the files are called that are written: as the path is, without what a shell or a folder would trip over. */
static bool make_prefix(struct import *import)
{
    const char *given = import->request->prefix, *path = import->request->path;
    size_t length = strlen(path);
    while (length > 1 && path[length - 1] == '/')
        length--;
    size_t start = length;
    while (start > 0 && path[start - 1] != '/')
        start--;
    struct text name = given ? text_of(given) : (struct text){ path + start, (uint32_t)(length - start) };
    const char *dot = given ? NULL : memchr(name.bytes, '.', name.length);
    if (dot && dot > name.bytes)
        name.length = (uint32_t)(dot - name.bytes);
    bool bad = name.length == 0 || name.length > PREFIX_BYTES || *name.bytes == '.' || memchr(name.bytes, '/', name.length);
    for (uint32_t i = 0; i < name.length; i++)
        bad = bad || (unsigned char)name.bytes[i] < ' ';
    if (bad && !given)
        name = text_of("foods");
    else if (bad)
        return trouble_stop(import, STATUS_USAGE, given, "is no name for a file");
    import->prefix = arena_copy(&import->arena, name.bytes, name.length);
    return import->prefix != NULL || trouble_memory(import);
}

static void measure_files(struct import *import)
{
    struct stat facts;
    for (uint32_t i = 0; i < ROLE_COUNT; i++) {
        const struct map_file *file = &import->mapping.files[i];
        const char *path = import->request->path;
        if (import->mapping.is_folder && file->is_named)
            path = arena_print(&import->arena, "%s/%.*s", import->request->path, (int)file->name.length, file->name.bytes);
        bool counts = import->mapping.is_folder ? file->is_named : i == ROLE_FOODS;
        if (counts && path && stat(path, &facts) == 0 && facts.st_size > 0)
            import->bytes_whole += (uint64_t)facts.st_size;
    }
}

/* A table is a file, and tables are a folder. */
static bool check_path(struct import *import)
{
    struct stat facts;
    bool is_folder = stat(import->request->path, &facts) == 0 && S_ISDIR(facts.st_mode);
    if (is_folder == import->mapping.is_folder)
        return true;
    return trouble_stop(import, STATUS_USAGE, import->request->path,
                        is_folder ? "this is a folder, and the mapping is of a single table"
                                  : "this is a file, and the mapping is of the tables of a folder");
}

/* ---- what was done --------------------------------------------------------------------------------------------------------------- */

static void say_count(struct buffer *words, uint64_t count, const char *one, const char *many)
{
    if (count > 0)
        buffer_print(words, "%llu %s\n", (unsigned long long)count, count == 1 ? one : many);
}

static void say_place(const struct import *import, struct buffer *words)
{
    const struct import_outcome *outcome = import->outcome;
    buffer_print(words, "%llu %s in ", (unsigned long long)outcome->foods, outcome->foods == 1 ? "food" : "foods");
    buffer_add_visible(words, text_of(import->request->folder));
    buffer_add_string(words, "/");
    buffer_add_visible(words, text_of(import->prefix));
    buffer_add_string(words, "-0001.quern");
    if (outcome->files > 1)
        buffer_print(words, " and the files after it, up to %04u", (unsigned)outcome->files);
    buffer_add_string(words, "\n");
}

static void say_files(struct import *import, struct buffer *words)
{
    const struct import_outcome *outcome = import->outcome;
    if (!import->request->for_pack)
        say_place(import, words);
    say_count(words, outcome->renamed, "name was taken: `number …` stands behind it",
              "names were taken: `number …` stands behind them");
}

static void say_outcome(struct import *import, bool written)
{
    struct buffer words;
    const struct import_outcome *outcome = import->outcome;
    buffer_open(&words, import->allocator);
    if (written)
        say_files(import, &words);
    say_count(&words, outcome->without_figures, "food without any figure was left out", "foods without any figure were left out");
    say_count(&words, outcome->without_measure, "portion that no recipe could use was left out",
              "portions that no recipe could use were left out");
    if (outcome->wrong > 0)
        buffer_print(&words, "%llu wrong %s%s%s\n", (unsigned long long)outcome->wrong, outcome->wrong == 1 ? "row" : "rows",
                     outcome->wrong > LIMIT_IMPORT_SHOWN ? ", of which the first 20 are shown" : "",
                     written ? outcome->wrong == 1 ? ": it was left out" : ": they were left out"
                             : "; nothing was written. Correct what is wrong, or leave it out with --skip-bad");
    if (outcome->wrong == 0 && !written)
        buffer_add_string(&words, "no food with a figure was found; nothing was written\n");
    if (written && import->mapping.caution.length > 0) {
        buffer_add_string(&words, "caution: ");
        buffer_add_visible(&words, import->mapping.caution);
        buffer_add_string(&words, "\n");
    }
    trouble_say(import, &words);
    buffer_close(&words);
}

/* ---- all of it ------------------------------------------------------------------------------------------------------------------------ */

static bool read_tables(struct import *import)
{
    if (!import->mapping.is_folder)
        return shelf_open(import) && single_read(import);
    return parts_open(import, import->bytes_whole) && shelf_open(import) && folder_read(import) && parts_join(import);
}

/* What was done is told before the files get their names: if that cannot be told, the import has failed. */
static void import_tables(struct import *import)
{
    bool written = output_begin(import) && read_tables(import) && !import->map_is_wrong && shelf_write(import);
    written = written && import->outcome->foods > 0 && (import->outcome->wrong == 0 || import->request->skip_wrong);
    if (atomic_load(&import->memory.failed))
        trouble_memory(import);
    if (import->status == STATUS_OK && !import->map_is_wrong)
        say_outcome(import, written);
    if (!written || import->status != STATUS_OK || !output_finish(import))
        output_discard(import);
}

static void close_files(struct import *import)
{
    for (uint32_t i = 0; i < PARTS_MOST; i++) {
        if (import->parts[i])
            fclose(import->parts[i]);
        if (import->shelves[i])
            fclose(import->shelves[i]);
    }
    if (import->keys)
        fclose(import->keys);
}

enum status import_run(const struct import_request *request, struct import_outcome *outcome)
{
    struct allocator allocator = request->allocator;
    struct import *import = allocator.resize(allocator.context, NULL, sizeof *import);
    *outcome = (struct import_outcome){ .wrong = 0 };
    if (!import)
        return STATUS_NO_MEMORY;
    *import = (struct import){ .request = request, .outcome = outcome, .memory = { .allocator = allocator }, .library = request->library };
    import->allocator = allocator_watched(&import->memory);
    arena_open(&import->arena, import->allocator);
    buffer_open(&import->work, import->allocator);
    buffer_open(&import->body, import->allocator);
    bool ready = find_mapping(import) && outcome->wrong == 0 && check_path(import) && make_prefix(import);
    if (ready) {
        measure_files(import);
        import_tables(import);
    }
    if (atomic_load(&import->memory.failed))
        trouble_memory(import);
    enum status status = import->status;
    close_files(import);
    line_index_close(&import->lines);
    buffer_close(&import->body);
    buffer_close(&import->work);
    arena_close(&import->arena);
    allocator.resize(allocator.context, import, 0);
    return status;
}
