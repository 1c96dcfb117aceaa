/* packing.c: text files into a pack; every file is read PACKING_PASSES times. */
#ifndef QUERN_LIBRARY_PACKING_H
#define QUERN_LIBRARY_PACKING_H

#include "library/library.h"

struct packing {
    struct builder *builder;
    struct parse parse;
    struct arena trees, quiet_arena;
    struct findings *findings;
    uint32_t pass;
};

/* False when memory failed; packing_close is due in any case. */
bool packing_open(struct packing *packing, struct allocator allocator, const struct library *base, const struct rules *rules,
                  const struct library *rules_owner, struct findings *findings);

/* Reads one text; `bytes` as parse_text wants them. */
enum status packing_read(struct packing *packing, uint32_t file, char *bytes, uint32_t length, uint32_t pass);

/* The pack, in memory of the allocator, whatever was found. */
enum status packing_close(struct packing *packing, void **pack, size_t *size);

#endif
