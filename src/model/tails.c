/* Tails resolved once and kept, with what treatments leave kept once for all of them; and told again at each line. */
#include <string.h>

#include "model/resolve.h"

/* An equal set that an earlier tail has left, or NULL. */
static const struct range *find_keeps(const struct gathering *gathering, const struct range *keeps, size_t size,
                                      uint64_t hash)
{
    uint32_t position;
    for (uint32_t at = table_find(&gathering->keeps_table, hash, &position); at != TABLE_NONE;
         at = table_next(&gathering->keeps_table, hash, &position)) {
        if (memcmp(gathering->keeps[at], keeps, size) == 0)
            return gathering->keeps[at];
    }
    return NULL;
}

/* Treatments are few and tails many: what a treatment leaves is kept once. Without memory it is kept as it is. */
static void share_keeps(struct gathering *gathering, struct resolved *resolved, struct arena_mark before)
{
    size_t size = gathering->kitchen->library->column_count * sizeof *resolved->done.keeps;
    uint64_t hash = hash_bytes(resolved->done.keeps, size);
    const struct range *earlier = find_keeps(gathering, resolved->done.keeps, size, hash);
    if (earlier) {
        resolved->done.keeps = earlier;
        arena_rewind(&gathering->keeps_arena, before);
    } else if (array_grow(&gathering->kitchen->allocator, &gathering->keeps, gathering->keeps_count,
                          &gathering->keeps_capacity, sizeof *gathering->keeps)
               && table_add(&gathering->keeps_table, hash, gathering->keeps_count)) {
        gathering->keeps[gathering->keeps_count++] = resolved->done.keeps;
    }
}

/* Resolves once; NULL when memory failed. */
static const struct resolved *resolve_and_keep(struct gathering *gathering, uint32_t tail, uint32_t part)
{
    struct resolved *resolved = arena_take(&gathering->arena, sizeof *resolved);
    struct arena_mark before = arena_mark(&gathering->keeps_arena);
    if (!resolved)
        return NULL;
    resolve_whole(gathering, &gathering->tails[tail], part, (struct voice){ 0 }, resolved);
    if (gathering->arena.failed || gathering->keeps_arena.failed)
        return NULL;                    /* what a treatment takes away must not stay for want of memory */
    if (resolved->done.keeps)
        share_keeps(gathering, resolved, before);
    return resolved;
}

const struct resolved *tail_resolve(struct gathering *gathering, uint32_t number)
{
    struct tail *tail = &gathering->tails[number];
    if (!tail->resolved)
        tail->resolved = (struct resolved *)resolve_and_keep(gathering, number, NONE_INDEX);
    return tail->resolved;
}

/* A line's tail together with the part that it stands in. */
struct within {
    uint32_t tail, part;
    const struct resolved *resolved;
};

static const struct resolved *find_within(const struct gathering *gathering, uint32_t tail, uint32_t part, uint64_t hash)
{
    uint32_t position;
    for (uint32_t at = table_find(&gathering->within_table, hash, &position); at != TABLE_NONE;
         at = table_next(&gathering->within_table, hash, &position)) {
        if (gathering->withins[at].tail == tail && gathering->withins[at].part == part)
            return gathering->withins[at].resolved;
    }
    return NULL;
}

const struct resolved *tail_resolve_within(struct gathering *gathering, uint32_t tail, uint32_t part)
{
    uint64_t hash = hash_mix(tail, part);
    const struct resolved *resolved = find_within(gathering, tail, part, hash);
    if (resolved)
        return resolved;
    resolved = resolve_and_keep(gathering, tail, part);
    if (!resolved || !array_grow(&gathering->kitchen->allocator, &gathering->withins, gathering->withins_count,
                                 &gathering->withins_capacity, sizeof *gathering->withins)
        || !table_add(&gathering->within_table, hash, gathering->withins_count))
        return NULL;
    gathering->withins[gathering->withins_count++] = (struct within){ tail, part, resolved };
    return resolved;
}

static void speak(struct gathering *gathering, uint32_t tail, uint32_t part, struct voice voice)
{
    struct resolved again = { 0 };
    struct arena_mark mark = arena_mark(&gathering->arena), keeps_mark = arena_mark(&gathering->keeps_arena);
    resolve_whole(gathering, &gathering->tails[tail], part, voice, &again);
    arena_rewind(&gathering->arena, mark);
    arena_rewind(&gathering->keeps_arena, keeps_mark);
}

void tail_speak(struct gathering *gathering, uint32_t tail, struct findings *findings, uint32_t file,
                uint32_t tail_start)
{
    speak(gathering, tail, NONE_INDEX, (struct voice){ findings, file, tail_start });
}

void tail_speak_within(struct gathering *gathering, uint32_t tail, uint32_t part, struct findings *findings, uint32_t file)
{
    speak(gathering, tail, part, (struct voice){ findings, file, 0 });
}
