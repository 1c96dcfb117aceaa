/* Preloaded into the program: memory, reads and mapped files that fail when they are told to.
 *
 *   FAIL_ALLOCATION=N    the Nth allocation gives nothing; with FAIL_ON=1 all after it give nothing, too
 *   COUNT_TO=FILE        how many allocations there were, written when the program ends
 *   FAIL_SHORT=N         one call reads or writes at most N bytes
 *   FAIL_CUT=1           each file is emptied as soon as it is mapped
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *block, size_t size);

static long asked, fail_at, short_bytes;
static int fail_on, cut, ready;

static long number_of(const char *name)
{
    const char *value = getenv(name);
    return value ? atol(value) : 0;
}

__attribute__((constructor)) static void begin(void)
{
    fail_at = number_of("FAIL_ALLOCATION");
    fail_on = (int)number_of("FAIL_ON");
    short_bytes = number_of("FAIL_SHORT");
    cut = (int)number_of("FAIL_CUT");
    ready = 1;
}

__attribute__((destructor)) static void end(void)
{
    const char *path = getenv("COUNT_TO");
    char words[32];
    int file = path ? open(path, O_WRONLY | O_CREAT | O_TRUNC, 0666) : -1;
    int length = snprintf(words, sizeof words, "%ld\n", asked);
    if (file >= 0 && write(file, words, (size_t)length) == length)
        close(file);
}

static int is_refused(void)
{
    if (!ready)
        return 0;
    long number = __atomic_add_fetch(&asked, 1, __ATOMIC_RELAXED);
    return fail_at && (number == fail_at || (fail_on && number > fail_at));
}

void *malloc(size_t size)
{
    return is_refused() ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return is_refused() ? NULL : __libc_calloc(count, size);
}

void *realloc(void *block, size_t size)
{
    return size && is_refused() ? NULL : __libc_realloc(block, size);
}

ssize_t read(int file, void *bytes, size_t size)
{
    static ssize_t (*next)(int, void *, size_t);
    if (!next)
        *(void **)&next = dlsym(RTLD_NEXT, "read");
    return next(file, bytes, short_bytes && size > (size_t)short_bytes ? (size_t)short_bytes : size);
}

ssize_t write(int file, const void *bytes, size_t size)
{
    static ssize_t (*next)(int, const void *, size_t);
    if (!next)
        *(void **)&next = dlsym(RTLD_NEXT, "write");
    return next(file, bytes, short_bytes && size > (size_t)short_bytes ? (size_t)short_bytes : size);
}

void *mmap(void *at, size_t size, int protection, int flags, int file, off_t offset)
{
    static void *(*next)(void *, size_t, int, int, int, off_t);
    if (!next)
        *(void **)&next = dlsym(RTLD_NEXT, "mmap");
    void *mapped = next(at, size, protection, flags, file, offset);
    if (cut && file >= 0) {
        char path[64];
        snprintf(path, sizeof path, "/proc/self/fd/%d", file);
        if (truncate(path, 0) != 0)
            abort();
    }
    return mapped;
}
