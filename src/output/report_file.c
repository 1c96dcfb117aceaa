/* Reports in files of their own: their names, and writing each under a temporary name first. */
#include <errno.h>
#include <string.h>

#include "output/output.h"

#define LONGEST_NAME 120            /* bytes; a number and an ending follow, and file systems take 255 */

/* Names that stand for devices somewhere, whatever ending is behind them, and that of the index. */
static const char *const reserved[] = { "con", "prn", "aux", "nul", "index" };

/* ---- names */

/* The letter at `at` as a file name holds it: in lower case, so that no two names are one where case does not count. Returns
 * how many bytes it came to; 0 for what is no letter or digit. An accent of its own is left out: `*is_mark`. */
static size_t name_letter(struct text name, uint32_t at, uint32_t size, char *letter, bool *is_mark)
{
    unsigned char byte = (unsigned char)name.bytes[at];
    *is_mark = false;
    if (size > 1)
        return utf8_lower(name.bytes + at, size, letter, is_mark);
    *letter = byte >= 'A' && byte <= 'Z' ? (char)(byte + 32) : (char)byte;
    return (*letter >= 'a' && *letter <= 'z') || (*letter >= '0' && *letter <= '9');
}

static bool is_reserved(const char *name, size_t length)
{
    bool numbered = length == 4 && (memcmp(name, "com", 3) == 0 || memcmp(name, "lpt", 3) == 0) && name[3] >= '0' && name[3] <= '9';
    for (size_t i = 0; i < COUNT_OF(reserved) && !numbered; i++)
        numbered = length == strlen(reserved[i]) && memcmp(name, reserved[i], length) == 0;
    return numbered || (length > 9 && memcmp(name, "index-by-", 9) == 0);
}

/* A file name from a recipe's name: letters and digits, the rest as hyphens. */
static size_t make_file_name(char *storage, struct text name)
{
    size_t used = 0;
    for (uint32_t at = 0; at < name.length;) {
        char letter[8];
        bool is_mark;
        uint32_t size = utf8_length(name.bytes + at, name.length - at);
        size = size ? size : 1;
        size_t length = name_letter(name, at, size, letter, &is_mark);
        if (used + length + 1 > LONGEST_NAME)
            break;
        if (is_mark)
            length = 0;
        else if (length == 0 && used > 0 && storage[used - 1] != '-')
            letter[length++] = '-';
        else if (length == 0)
            length = 0;
        memcpy(storage + used, letter, length);
        used += length;
        at += size;
    }
    while (used > 0 && storage[used - 1] == '-')
        used--;
    if (used == 0 || is_reserved(storage, used)) {
        memmove(storage + 7, storage, used);
        memcpy(storage, "recipe-", 7);
        used += used ? 7 : 6;
    }
    return used;
}

/* Takes the first of `name`, `name-2`, `name-3` that no report of this call has. Under a name stands the last number
 * behind it; where two names share a hash, a number too many is all that happens. */
static bool take_free_name(struct telling *telling, char *storage, size_t size, size_t *used)
{
    struct table *taken = &telling->names_taken;
    size_t plain = *used;
    uint64_t base = hash_bytes(storage, plain), hash = base;
    uint32_t position, number = table_find(taken, base, &position);
    while (table_find(taken, hash, &position) != TABLE_NONE) {
        *used = plain + (size_t)snprintf(storage + plain, size - plain, "-%u", ++number);
        hash = hash_bytes(storage, *used);
    }
    return table_put(taken, hash, 1) && (hash == base || table_put(taken, base, number));
}

/* ---- files */

static bool write_to_stream(void *context, const char *bytes, size_t length)
{
    return fwrite(bytes, 1, length, context) == length;
}

static enum status write_file(struct telling *telling, const char *path, file_filler *fill, void *context)
{
    struct output_file file;
    struct writer writer;
    enum status status = output_file_open(&file, telling->allocator, path);
    if (status != STATUS_OK)
        return telling_fail(telling, status, path, strerror(errno));
    file.passing = true;
    writer_open(&writer, telling->allocator, write_to_stream, file.stream);
    status = fill(telling, &writer, context);
    if (status == STATUS_OK && !writer_flush(&writer))
        status = STATUS_IO;
    if (atomic_load(&telling->memory->failed) || writer.buffer.failed)
        status = STATUS_NO_MEMORY;
    int reason = errno;
    writer_close(&writer);
    if (status != STATUS_OK)
        output_file_abandon(&file);
    else if ((status = output_file_finish(&file)) != STATUS_OK)
        reason = errno;
    if (status == STATUS_OK || telling->failure[0])
        return status;
    return status == STATUS_NO_MEMORY ? telling_fail(telling, status, "out of memory", NULL) : telling_fail(telling, status, path, strerror(reason));
}

enum status folder_file_write(struct telling *telling, struct text name, file_filler *fill, void *context)
{
    static const char *const endings[] = { ".txt", ".json", ".csv", ".html", ".md", ".jsonld" };
    struct buffer path;
    buffer_open(&path, telling->allocator);
    buffer_print(&path, "%s/%.*s%s", telling->folder, (int)name.length, name.bytes, endings[telling->form]);
    enum status status = path.failed ? telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL) : write_file(telling, path.bytes, fill, context);
    buffer_close(&path);
    return status;
}

struct document {
    struct showing *showing;
    const struct report *report;
};

static enum status fill_document(struct telling *telling, struct writer *writer, void *context)
{
    struct document *document = context;
    struct writer *before = document->showing->writer;
    document->showing->writer = writer;
    enum status status = telling_document(telling, document->showing, document->report);
    document->showing->writer = before;
    return status == STATUS_OK ? telling_unread(telling, document->showing->kitchen) : status;
}

enum status report_file_write(struct telling *telling, struct showing *showing, const struct report *report)
{
    char name[LONGEST_NAME + 32];
    struct document document = { showing, report };
    size_t used = make_file_name(name, report_name(report));
    if (telling->progress && !telling->progress(telling->progress_context, telling->files_written, telling->files_expected))
        return telling_fail(telling, STATUS_IO, telling->folder, "stopped; the reports that were written are whole");
    if (!take_free_name(telling, name, sizeof name, &used))
        return telling_fail(telling, STATUS_NO_MEMORY, "out of memory", NULL);
    struct text file = { name, (uint32_t)used };
    enum status status = folder_file_write(telling, file, fill_document, &document);
    if (status == STATUS_OK)
        status = index_note(telling, showing, report, file);
    telling->files_written += status == STATUS_OK;
    return status;
}
