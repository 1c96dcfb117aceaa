/* The first pass over a kitchen: every file is read and collected. Threads share the files; each takes the next few. */
#include <errno.h>
#include <fcntl.h>
#include <stdatomic.h>
#include <string.h>

#include "model/model.h"

#define SHARE KITCHEN_FILES_PER_WORKER

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
    if (file->is_refused) {
        file->status = STATUS_IO;
        file->reason = ELOOP;
        finding_add(&gathering->findings, FINDING_LINK_OUTSIDE, (struct place){ number, { 0, 0 } }, NO_GAPS);
        return STATUS_OK;
    }
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
};

struct reader {
    struct sharing *sharing;
    struct gathering *gathering;
    enum status status;
};

static void *read_along(void *context)
{
    struct reader *reader = context;
    struct sharing *sharing = reader->sharing;
    for (;;) {
        uint32_t first = atomic_fetch_add(&sharing->next, SHARE);
        for (uint32_t i = first; i < first + SHARE && i < sharing->end; i++) {
            if (reader->status == STATUS_OK)
                reader->status = read_file(reader->gathering, i);
        }
        if (first + SHARE >= sharing->end)
            return NULL;
    }
}

static enum status share_files(struct kitchen *kitchen, uint32_t first)
{
    struct reader readers[LIMIT_JOBS];
    struct sharing sharing = { .kitchen = kitchen, .end = kitchen->files_count };
    atomic_init(&sharing.next, first);
    enum status status = STATUS_OK;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        readers[i] = (struct reader){ &sharing, &kitchen->gatherings[i], STATUS_OK };
    threads_run(read_along, readers, sizeof *readers, kitchen->gatherings_count);
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        status = status == STATUS_OK ? readers[i].status : status;
    return status;
}

bool kitchen_add_file(struct kitchen *kitchen, const char *path, bool requested, bool is_kitchen)
{
    if (!path || !array_grow(&kitchen->allocator, &kitchen->files, kitchen->files_count, &kitchen->files_capacity,
                             sizeof *kitchen->files))
        return false;
    kitchen->files[kitchen->files_count++] = (struct kitchen_file){ .path = path, .requested = requested,
                                                                    .is_kitchen = is_kitchen };
    return true;
}

/* kitchen.quern is read first: it may name further files. */
enum status kitchen_read(struct kitchen *kitchen, struct text given)
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
        status = kitchen_add_used(kitchen);
    return status == STATUS_OK && kitchen->files_count > first ? share_files(kitchen, first) : status;
}
