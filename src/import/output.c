/* Numbered files of at most 16 MiB in a hidden folder beside their later place. They get their names when all of them
 * are whole; if one cannot be named, those that were are taken back. */
#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "import/parts.h"

#define ROOM_BYTES 16384            /* of a file's buffer; there may be 500 of them */

static char *file_path(struct import *import, const char *folder, uint32_t number, char *storage, size_t size)
{
    int length = snprintf(storage, size, "%s/%s-%04u.quern", folder, import->prefix, (unsigned)number);
    if (length > 0 && (size_t)length < size)
        return storage;
    trouble_stop(import, STATUS_LIMIT, import->request->folder, "the path is too long");
    return NULL;
}

/* ---- beginning ------------------------------------------------------------------------------------------------------- */

/* NAME-0001.quern and the like, of an earlier import: foods of both would be declared twice. */
static bool is_earlier(const char *entry, const char *prefix)
{
    size_t length = strlen(prefix);
    if (strncmp(entry, prefix, length) != 0 || entry[length] != '-')
        return false;
    size_t digits = strspn(entry + length + 1, "0123456789");
    return digits >= 4 && strcmp(entry + length + 1 + digits, ".quern") == 0;
}

static bool is_free(struct import *import)
{
    const char *folder = import->request->folder;
    DIR *directory = opendir(folder);
    bool good = directory != NULL;
    if (!good)
        return trouble_stop(import, STATUS_IO, folder, strerror(errno));
    for (struct dirent *entry; good && (errno = 0, entry = readdir(directory)) != NULL;)
        good = !is_earlier(entry->d_name, import->prefix);
    int reason = good ? errno : 0;
    closedir(directory);
    if (reason)
        return trouble_stop(import, STATUS_IO, folder, strerror(reason));
    return good || trouble_stop(import, STATUS_USAGE, folder,
                                "files of an earlier import with this name are here; move them away or choose another --prefix");
}

bool output_begin(struct import *import)
{
    const char *folder = import->request->folder;
    char name[TEMPORARY_BYTES];
    import->folder_made = mkdir(folder, 0777) == 0;
    if (!import->folder_made && errno != EEXIST)
        return trouble_stop(import, STATUS_IO, folder, strerror(errno));
    if (!is_free(import))
        return false;
    temporaries_clear(folder, import->allocator);
    temporary_name(name);
    char *scratch = arena_print(&import->arena, "%s/%s", folder, name);
    if (!scratch)
        return trouble_memory(import);
    if (!mkdtemp(scratch))
        return trouble_stop(import, STATUS_IO, folder, strerror(errno));
    import->scratch = scratch;
    return true;
}

FILE *import_scratch_file(struct import *import)
{
    char *path = arena_print(&import->arena, "%s/part", import->scratch);
    char *room = arena_take(&import->arena, ROOM_BYTES);
    FILE *file = path && room ? fopen(path, "w+b") : NULL;
    if (file) {
        unlink(path);
        setvbuf(file, room, _IOFBF, ROOM_BYTES);
    }
    else if (path && room)
        trouble_stop(import, STATUS_IO, path, strerror(errno));
    else
        trouble_memory(import);
    return file;
}

bool import_put(struct import *import, FILE *file, const void *bytes, size_t length)
{
    if (length == 0 || fwrite(bytes, 1, length, file) == length)
        return true;
    return trouble_stop(import, STATUS_IO, import->request->folder, strerror(errno));
}

/* ---- files --------------------------------------------------------------------------------------------------------------- */

static bool close_file(struct import *import)
{
    FILE *file = import->file;
    if (!file)
        return true;
    bool good = fflush(file) == 0 && fsync(fileno(file)) == 0;
    int reason = errno;
    good = fclose(file) == 0 && good;
    import->file = NULL;
    return good || trouble_stop(import, STATUS_IO, import->request->folder, strerror(reason ? reason : errno));
}

/* What a reader of the file should know first. */
static bool write_head(struct import *import)
{
    struct buffer head;
    const char *path = import->request->path, *slash = strrchr(path, '/');
    struct text caution = import->mapping.caution;
    buffer_open(&head, import->allocator);
    buffer_add_string(&head, "# Imported from ");
    words_add_quoted(&head, text_of(slash && slash[1] ? slash + 1 : path), 200);
    buffer_add_string(&head, ".\n");
    if (caution.length > 0) {
        buffer_add_string(&head, "# ");
        words_add_quoted(&head, caution, 1000);
        buffer_add_string(&head, "\n");
    }
    bool good = head.failed ? trouble_memory(import) : import_put(import, import->file, head.bytes, head.length);
    import->file_bytes = head.length;
    buffer_close(&head);
    return good;
}

static bool next_file(struct import *import)
{
    char path[4096];
    if (!close_file(import) || !file_path(import, import->scratch, import->outcome->files + 1, path, sizeof path))
        return false;
    import->file = fopen(path, "wb");
    if (!import->file)
        return trouble_stop(import, STATUS_IO, path, strerror(errno));
    import->outcome->files++;
    return write_head(import);
}

bool output_add(struct import *import, const char *bytes, size_t length)
{
    if ((!import->file || import->file_bytes + length > LIMIT_IMPORT_FILE_BYTES) && !next_file(import))
        return false;
    import->file_bytes += length;
    return import_put(import, import->file, bytes, length);
}

bool output_restart(struct import *import)
{
    char path[4096];
    if (import->file)
        fclose(import->file);
    import->file = NULL;
    for (uint32_t number = 1; import->scratch && number <= import->outcome->files; number++) {
        if (file_path(import, import->scratch, number, path, sizeof path))
            unlink(path);
    }
    import->outcome->files = 0;
    return import->status == STATUS_OK;
}

/* ---- ending ---------------------------------------------------------------------------------------------------------------- */

static bool name_file(struct import *import, uint32_t number)
{
    char from[4096], to[4096];
    if (!file_path(import, import->scratch, number, from, sizeof from)
        || !file_path(import, import->request->folder, number, to, sizeof to))
        return false;
    return rename(from, to) == 0 || trouble_stop(import, STATUS_IO, to, strerror(errno));
}

bool output_finish(struct import *import)
{
    char path[4096];
    if (!close_file(import))
        return false;
    for (uint32_t number = 1; number <= import->outcome->files; number++) {
        if (name_file(import, number))
            continue;
        while (--number > 0) {
            if (file_path(import, import->request->folder, number, path, sizeof path))
                unlink(path);
        }
        return false;
    }
    rmdir(import->scratch);
    import->scratch = NULL;
    return true;
}

void output_discard(struct import *import)
{
    output_restart(import);
    if (import->scratch)
        rmdir(import->scratch);
    if (import->folder_made)
        rmdir(import->request->folder);
    import->scratch = NULL;
}
