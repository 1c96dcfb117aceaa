/* Files read whole into a reused buffer, and outputs that appear only when complete. */
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/base.h"

/* Reads until the end or the limit; the first read is as large as the file said it is. */
static enum status read_all(int descriptor, size_t limit, struct buffer *buffer)
{
    for (;;) {
        if (buffer->capacity - buffer->length < 3 && !buffer_reserve(buffer, buffer->capacity + 65536))
            return STATUS_NO_MEMORY;
        ssize_t count = read(descriptor, buffer->bytes + buffer->length,
                             buffer->capacity - buffer->length - 2);
        if (count < 0 && errno == EINTR)
            continue;
        if (count < 0)
            return STATUS_IO;
        buffer->length += (size_t)count;
        if (buffer->length > limit)
            return STATUS_LIMIT;
        if (count == 0)
            break;
    }
    memset(buffer->bytes + buffer->length, 0, 2);
    return STATUS_OK;
}

/* A regular file of known size takes one read: asking again for its end would cost a call a file. */
static enum status read_sized(int descriptor, size_t size, size_t limit, struct buffer *buffer)
{
    ssize_t count = read(descriptor, buffer->bytes, size + 1);
    if (count < 0 || (size_t)count != size) {
        buffer->length = count > 0 ? (size_t)count : 0;
        return read_all(descriptor, limit, buffer);
    }
    buffer->length = size;
    memset(buffer->bytes + size, 0, 2);
    return STATUS_OK;
}

static enum status read_descriptor(int descriptor, size_t limit, struct buffer *buffer)
{
    struct stat facts;
    if (fstat(descriptor, &facts) != 0)
        return STATUS_IO;
    if (S_ISDIR(facts.st_mode)) {
        errno = EISDIR;
        return STATUS_IO;
    }
    size_t size = S_ISREG(facts.st_mode) ? (size_t)facts.st_size : 0;
    if (size > limit)
        return STATUS_LIMIT;
    buffer->length = 0;
    if (!buffer_reserve(buffer, size + 3))
        return STATUS_NO_MEMORY;
    return S_ISREG(facts.st_mode) ? read_sized(descriptor, size, limit, buffer)
                                  : read_all(descriptor, limit, buffer);
}

enum status file_read(int folder, const char *name, size_t limit, struct buffer *buffer)
{
    int descriptor = openat(folder, name, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (descriptor < 0)
        return STATUS_IO;
    enum status status = read_descriptor(descriptor, limit, buffer);
    int reason = errno;
    close(descriptor);
    errno = reason;
    return status;
}

enum status file_read_input(size_t limit, struct buffer *buffer)
{
    buffer->length = 0;
    return read_all(STDIN_FILENO, limit, buffer);
}

static enum status map_descriptor(int descriptor, size_t limit, struct mapped_file *mapped)
{
    struct stat facts;
    if (fstat(descriptor, &facts) != 0)
        return STATUS_IO;
    if (!S_ISREG(facts.st_mode) || facts.st_size == 0) {
        errno = S_ISREG(facts.st_mode) ? ENODATA : EINVAL;
        return STATUS_IO;
    }
    if ((size_t)facts.st_size > limit)
        return STATUS_LIMIT;
    void *bytes = mmap(NULL, (size_t)facts.st_size, PROT_READ, MAP_PRIVATE, descriptor, 0);
    if (bytes == MAP_FAILED)
        return STATUS_IO;
    *mapped = (struct mapped_file){ bytes, (size_t)facts.st_size };
    return STATUS_OK;
}

enum status file_map(const char *path, size_t limit, struct mapped_file *mapped)
{
    int descriptor = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (descriptor < 0)
        return STATUS_IO;
    enum status status = map_descriptor(descriptor, limit, mapped);
    int reason = errno;
    close(descriptor);
    errno = reason;
    return status;
}

void file_unmap(struct mapped_file *mapped)
{
    if (mapped->bytes)
        munmap((void *)(uintptr_t)mapped->bytes, mapped->size);
    *mapped = (struct mapped_file){ NULL, 0 };
}

static char *print_path(struct allocator *allocator, const char *path, size_t length, const char *name)
{
    size_t size = length + strlen(name) + 1;
    char *copy = allocator->resize(allocator->context, NULL, size);
    if (copy)
        snprintf(copy, size, "%.*s%s", (int)length, path, name);
    return copy;
}

static void forget_paths(struct output_file *file)
{
    file->allocator.resize(file->allocator.context, file->path, 0);
    file->allocator.resize(file->allocator.context, file->temporary, 0);
    file->path = file->temporary = NULL;
}

enum status output_file_open(struct output_file *file, struct allocator allocator, const char *path)
{
    char name[TEMPORARY_BYTES];
    const char *slash = strrchr(path, '/');
    *file = (struct output_file){ .allocator = allocator };
    temporary_name(name);
    file->path = print_path(&allocator, path, strlen(path), "");
    file->temporary = print_path(&allocator, path, slash ? (size_t)(slash - path + 1) : 0, name);
    if (!file->path || !file->temporary) {
        forget_paths(file);
        return STATUS_NO_MEMORY;
    }
    int descriptor = mkstemp(file->temporary);
    if (descriptor < 0) {
        forget_paths(file);
        return STATUS_IO;
    }
    mode_t mask = umask(0);
    umask(mask);
    fchmod(descriptor, 0666 & ~mask);
    file->stream = fdopen(descriptor, "wb");
    if (file->stream)
        return STATUS_OK;
    close(descriptor);
    output_file_abandon(file);
    return STATUS_NO_MEMORY;
}

enum status output_file_finish(struct output_file *file)
{
    bool written = fflush(file->stream) == 0 && !ferror(file->stream) && (file->passing || fsync(fileno(file->stream)) == 0);
    int reason = errno;
    written = fclose(file->stream) == 0 && written;
    file->stream = NULL;
    if (written && rename(file->temporary, file->path) == 0) {
        forget_paths(file);
        return STATUS_OK;
    }
    reason = written ? errno : reason;
    output_file_abandon(file);
    errno = reason;
    return STATUS_IO;
}

void output_file_abandon(struct output_file *file)
{
    if (file->stream)
        fclose(file->stream);
    if (file->temporary)
        unlink(file->temporary);
    file->stream = NULL;
    forget_paths(file);
}
