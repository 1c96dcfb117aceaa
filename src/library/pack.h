/* The layout of a pack; nobody but pack.c, build.c and the verification includes it. */
#ifndef QUERN_LIBRARY_PACK_H
#define QUERN_LIBRARY_PACK_H

#include "library/library.h"

#define PACK_MAGIC "QUERNPK"
#define PACK_BYTE_ORDER 0x01020304u

/* The arrays of a pack are counted where they are listed. */
enum {
#define SECTION(field, type) SECTION_##field,
#include "library/sections.def"
#undef SECTION
    PACK_SECTIONS
};

struct pack_section {
    uint32_t offset, count;
};

struct pack_header {
    char magic[8];
    uint32_t version, byte_order;
    uint64_t size, base;                /* base: checksum of the pack that this one builds on, or 0 */
    uint64_t checksum;                  /* of all that follows */
    uint64_t vocabulary;                /* checksum of the sections that are looked at when a pack is mapped */
    struct pack_section sections[PACK_SECTIONS];
};

/* The checksum over all that stands behind the header's own fields, and the size of one item of a section. */
uint64_t pack_checksum(const void *pack, size_t size);
size_t pack_section_size(uint32_t section);

/* The checksum of the small sections, and of a food with its amounts, portions and spreads. They need sections that
 * lie inside the pack, and a food whose numbers do. */
uint64_t pack_vocabulary_checksum(const void *pack);
uint64_t pack_food_checksum(const struct library *library, const struct food *food);

uint32_t pack_food_section(void);

/* Sets all checksums of a pack whose sections lie inside it; of foods where their numbers do. */
void pack_seal(void *pack, const struct library *base);

/* ---- verify_figures.c: whether the language could have said the figures. Those of a food need its places to be verified, as
 * all of these need the pack's. */

bool pack_range_fits(struct range range);
bool food_figures_fit(const struct library *library, const struct food *food);
bool portion_figures_fit(const struct portion *portion);
bool spread_figures_fit(const struct library *library, const struct spread *spread);

/* All that is no food's: words, treatments, rules, people. */
bool pack_figures_fit(const struct library *library);

/* PACK_VERSION together with the sizes of all items: a pack of another layout is another version. */
uint32_t pack_version(void);

#endif
