/* Memory in blocks: a pointer moves up, one call frees all. Blocks emptied by a rewind are kept, since a fresh
 * page is the dearest thing on small inputs. */
#define _DEFAULT_SOURCE                 /* madvise */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

#include "base/base.h"

struct arena_block {
    struct arena_block *older;
    size_t used, size;
    _Alignas(16) unsigned char bytes[];
};

#define LARGE_BYTES ((size_t)8 << 20)
#define PAGE ((uintptr_t)4096)

/* Large blocks ask for large pages: fewer faults, which are a tenth of the time on a large kitchen. The advice is for
 * every page of the block: what is advised in part is two mappings for the kernel, and would grow by copying. */
static void *advise(void *block, size_t size)
{
#ifdef MADV_HUGEPAGE
    uintptr_t start = (uintptr_t)block & ~(PAGE - 1), end = ((uintptr_t)block + size + PAGE - 1) & ~(PAGE - 1);
    if (block && size >= LARGE_BYTES)
        madvise((void *)start, end - start, MADV_HUGEPAGE);
#endif
    (void)size;
    return block;
}

static void *standard_resize(void *context, void *block, size_t size)
{
    (void)context;
    if (size == 0) {
        free(block);
        return NULL;
    }
    return advise(realloc(block, size), size);
}

struct allocator allocator_standard(void)
{
    return (struct allocator){ .resize = standard_resize, .context = NULL };
}

static void *watched_resize(void *context, void *block, size_t size)
{
    struct watched_memory *memory = context;
    void *given = memory->allocator.resize(memory->allocator.context, block, size);
    if (!given && size > 0)
        atomic_store_explicit(&memory->failed, true, memory_order_relaxed);
    return given;
}

struct allocator allocator_watched(struct watched_memory *memory)
{
    return (struct allocator){ .resize = watched_resize, .context = memory };
}

void arena_open(struct arena *arena, struct allocator allocator)
{
    *arena = (struct arena){ .allocator = allocator };
}

static void free_blocks(struct allocator *allocator, struct arena_block *block)
{
    while (block) {
        struct arena_block *older = block->older;
        allocator->resize(allocator->context, block, 0);
        block = older;
    }
}

void arena_close(struct arena *arena)
{
    free_blocks(&arena->allocator, arena->block);
    free_blocks(&arena->allocator, arena->spare);
    arena->block = arena->spare = NULL;
}

static struct arena_block *take_spare(struct arena *arena, size_t size)
{
    struct arena_block *block = arena->spare;
    if (!block || block->size < size)
        return NULL;
    arena->spare = block->older;
    return block;
}

static bool add_block(struct arena *arena, size_t size)
{
    size_t bytes = arena->block ? arena->block->size * 2 : ARENA_BLOCK_BYTES;
    bytes = bytes > ARENA_LARGEST_BLOCK_BYTES ? ARENA_LARGEST_BLOCK_BYTES : bytes;
    bytes = size > bytes ? size : bytes;
    struct arena_block *block = take_spare(arena, size);
    if (!block) {
        block = arena->allocator.resize(arena->allocator.context, NULL, sizeof *block + bytes);
        if (!block) {
            arena->failed = true;
            return false;
        }
        block->size = bytes;
    }
    block->used = 0;
    block->older = arena->block;
    arena->block = block;
    return true;
}

static void *take_raw(struct arena *arena, size_t size)
{
    size_t rounded = (size + 7) & ~(size_t)7;
    if (rounded < size) {
        arena->failed = true;
        return NULL;
    }
    if (!arena->block || arena->block->size - arena->block->used < rounded) {
        if (!add_block(arena, rounded))
            return NULL;
    }
    void *taken = arena->block->bytes + arena->block->used;
    arena->block->used += rounded;
    return taken;
}

void *arena_take(struct arena *arena, size_t size)
{
    void *taken = take_raw(arena, size);
    return taken ? memset(taken, 0, size) : NULL;
}

char *arena_copy(struct arena *arena, const char *bytes, size_t length)
{
    char *copy = take_raw(arena, length + 1);
    if (!copy)
        return NULL;
    if (length)
        memcpy(copy, bytes, length);
    copy[length] = '\0';
    return copy;
}

char *arena_print(struct arena *arena, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(NULL, 0, format, arguments);
    va_end(arguments);
    char *text = length < 0 ? NULL : take_raw(arena, (size_t)length + 1);
    if (!text)
        return NULL;
    va_start(arguments, format);
    vsnprintf(text, (size_t)length + 1, format, arguments);
    va_end(arguments);
    return text;
}

struct arena_mark arena_mark(const struct arena *arena)
{
    return (struct arena_mark){ arena->block, arena->block ? arena->block->used : 0 };
}

void arena_rewind(struct arena *arena, struct arena_mark mark)
{
    while (arena->block != mark.block) {
        struct arena_block *block = arena->block;
        arena->block = block->older;
        block->older = arena->spare;
        arena->spare = block;
    }
    if (arena->block)
        arena->block->used = mark.used;
}

bool array_grow(struct allocator *allocator, void *items, uint32_t count, uint32_t *capacity, size_t size)
{
    void **array = items;
    if (count < *capacity)
        return true;
    if (*capacity > UINT32_MAX / 2)
        return false;
    uint32_t wider = *capacity ? *capacity * 2 : ARRAY_FIRST_COUNT;
    void *grown = allocator->resize(allocator->context, *array, wider * size);
    if (!grown)
        return false;
    *array = grown;
    *capacity = wider;
    return true;
}
