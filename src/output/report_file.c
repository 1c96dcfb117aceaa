/* Reports in files of their own: their names, and writing each under a temporary name first. */
#include <errno.h>
#include <string.h>

#include "output/output.h"

#define LONGEST_NAME 120            /* bytes; a number and an ending follow, and file systems take 255 */

/* A file name from a recipe's name: letters and digits, the rest as hyphens. */
static size_t make_file_name(char *storage, struct text name)
{
    size_t used = 0, at = 0;
    while (at < name.length) {
        unsigned char byte = (unsigned char)name.bytes[at];
        size_t size = byte < 0x80 ? 1 : utf8_length(name.bytes + at, name.length - at);
        bool letter = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || (byte >= '0' && byte <= '9') || byte >= 0x80;
        size = size ? size : 1;
        if (used + size > LONGEST_NAME)
            break;
        if (letter) {
            memcpy(storage + used, name.bytes + at, size);
            storage[used] = byte >= 'A' && byte <= 'Z' ? (char)(byte + 32) : (char)byte;
            used += size;
        } else if (used > 0 && storage[used - 1] != '-') {
            storage[used++] = '-';
        }
        at += size;
    }
    while (used > 0 && storage[used - 1] == '-')
        used--;
    if (used == 0)
        memcpy(storage, "recipe", used = 6);
    return used;
}

/* Takes the first of `name`, `name-2`, `name-3` that no report of this call has. Under a name stands the last number
 * behind it; where two names share a hash, a number too many is all that happens. */
static bool take_free_name(struct telling *telling, char *storage, size_t size, size_t used)
{
    struct table *taken = &telling->names_taken;
    uint64_t base = hash_bytes(storage, used), hash = base;
    uint32_t position, number = table_find(taken, base, &position);
    while (table_find(taken, hash, &position) != TABLE_NONE) {
        int length = snprintf(storage + used, size - used, "-%u", ++number);
        hash = hash_bytes(storage, used + (size_t)length);
    }
    return table_put(taken, hash, 1) && (hash == base || table_put(taken, base, number));
}

static enum status choose_path(struct telling *telling, struct text recipe, struct buffer *path)
{
    static const char *const endings[] = { ".txt", ".json", ".csv", ".html", ".md", ".jsonld" };
    char name[LONGEST_NAME + 16];
    size_t used = make_file_name(name, recipe);
    name[used] = '\0';
    if (!take_free_name(telling, name, sizeof name, used))
        return STATUS_NO_MEMORY;
    buffer_print(path, "%s/%s%s", telling->folder, name, endings[telling->form]);
    return path->failed ? STATUS_NO_MEMORY : STATUS_OK;
}

static bool write_to_stream(void *context, const char *bytes, size_t length)
{
    return fwrite(bytes, 1, length, context) == length;
}

static enum status write_file(struct telling *telling, struct showing *showing, const struct report *report, const char *path)
{
    struct output_file file;
    struct writer writer;
    enum status status = output_file_open(&file, telling->allocator, path);
    if (status != STATUS_OK)
        return telling_fail(telling, status, path, strerror(errno));
    writer_open(&writer, telling->allocator, write_to_stream, file.stream);
    showing->writer = &writer;
    bool made = telling_document(telling, showing, report) == STATUS_OK;
    bool good = writer_flush(&writer) && made;
    writer_close(&writer);
    showing->writer = &telling->writer;
    if (!good)
        output_file_abandon(&file);
    else
        status = output_file_finish(&file);
    telling->files_written += good && status == STATUS_OK;
    return good && status == STATUS_OK ? STATUS_OK : telling_fail(telling, STATUS_IO, path, strerror(errno));
}

enum status report_file_write(struct telling *telling, struct showing *showing, const struct report *report)
{
    struct buffer path;
    buffer_open(&path, telling->allocator);
    enum status status = choose_path(telling, report_name(report), &path);
    status = status == STATUS_OK ? write_file(telling, showing, report, path.bytes) : telling_fail(telling, status, "out of memory", NULL);
    buffer_close(&path);
    return status;
}
