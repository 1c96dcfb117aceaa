/* Files with findings, read again. */
#include <errno.h>
#include <fcntl.h>
#include <string.h>

#include "output/output.h"

void sources_open(struct sources *sources, struct kitchen *kitchen, struct text given)
{
    *sources = (struct sources){ .kitchen = kitchen, .file = FILE_NONE, .given = given,
                                 .buffer = &kitchen->gatherings[0].buffer };
}

void sources_close(struct sources *sources)
{
    line_index_close(&sources->lines);
}

const char *sources_path(const struct sources *sources, uint32_t file)
{
    if (file == FILE_NONE || file >= sources->kitchen->files_count)
        return "library";
    return sources->kitchen->files[file].path;
}

/* What could not be read the first time is told as that, and has no lines. */
static bool read_again(struct sources *sources, uint32_t file)
{
    struct kitchen_file *again = &sources->kitchen->files[file];
    if (sources->given.bytes) {
        sources->text = sources->given;
        return true;
    }
    if (again->is_refused || again->status != STATUS_OK)
        return false;
    enum status status = file_read(AT_FDCWD, again->path, LIMIT_FILE_BYTES, sources->buffer);
    if (status == STATUS_NO_MEMORY) {
        sources->failed = true;
        return false;
    }
    if (status != STATUS_OK) {
        again->status = STATUS_IO;
        again->reason = status == STATUS_LIMIT ? EFBIG : errno;
        return false;
    }
    sources->text = (struct text){ sources->buffer->bytes, (uint32_t)sources->buffer->length };
    return true;
}

bool sources_load(struct sources *sources, uint32_t file)
{
    if (file == sources->file)
        return sources->text.bytes != NULL;
    line_index_close(&sources->lines);
    sources->lines = (struct line_index){ 0 };
    sources->text = (struct text){ NULL, 0 };
    sources->file = file;
    if (file == FILE_NONE || file >= sources->kitchen->files_count || !read_again(sources, file))
        return false;
    if (line_index_make(&sources->lines, sources->kitchen->allocator, sources->text))
        return true;
    sources->failed = true;
    sources->text = (struct text){ NULL, 0 };
    return false;
}

struct position sources_position(struct sources *sources, struct place place)
{
    struct position position = { 0, 0, 0, 0 };
    if (!sources_load(sources, place.file))
        return position;
    line_index_find(&sources->lines, sources->text, place.span.start, &position.line, &position.column);
    line_index_find(&sources->lines, sources->text, place.span.end, &position.end_line, &position.end_column);
    return position;
}
