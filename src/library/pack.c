/* The bytes of a pack: a header with the place of every array, then the arrays. No pointer stands in it. */
#include <string.h>

#include "library/pack.h"

static const size_t section_sizes[] = {
#define SECTION(field, type) sizeof(type),
#include "library/sections.def"
#undef SECTION
};

static void count_columns(struct library *library)
{
    const struct library *first = library;
    while (first->base)
        first = first->base;
    library->nutrient_total = first->nutrients_count;
    library->traced = library->solvent = NONE_INDEX;
    for (uint32_t i = 0; i < first->nutrients_count; i++) {
        if (first->nutrients[i].traced)
            library->traced = i;
        if (first->nutrients[i].role == NUTRIENT_SOLVENT)
            library->solvent = i;
    }
    library->origin_column = first->nutrients_count;
    library->mass_column = first->nutrients_count + (library->traced != NONE_INDEX ? ORIGIN_COUNT : 0);
    library->column_count = library->mass_column + 1;
}

void library_view(struct library *library, const void *pack, const struct library *base)
{
    const struct pack_header *header = pack;
    const unsigned char *bytes = pack;
    *library = (struct library){ .base = base, .checksum = header->checksum };
#define SECTION(field, type)                                                                    \
    library->field = (const type *)(const void *)(bytes + header->sections[SECTION_##field].offset); \
    library->field##_count = header->sections[SECTION_##field].count;
#include "library/sections.def"
#undef SECTION
    library->group_first = base ? base->group_first + base->groups_count : 0;
    count_columns(library);
}

/* Large sections: foods and their names. The others are a few pages. */
static bool is_large(uint32_t section)
{
    return section == SECTION_foods || section == SECTION_portions || section == SECTION_values || section == SECTION_spreads
        || section == SECTION_texts || section == SECTION_names || section == SECTION_slots || section == SECTION_strings;
}

uint64_t pack_vocabulary_checksum(const void *pack)
{
    const struct pack_header *header = pack;
    const unsigned char *bytes = pack;
    uint64_t hash = hash_bytes(header->sections, sizeof header->sections);
    for (uint32_t i = 0; i < PACK_SECTIONS; i++) {
        if (!is_large(i))
            hash = hash_mix(hash ^ hash_bytes(bytes + header->sections[i].offset, header->sections[i].count * section_sizes[i]), i + 1);
    }
    return hash;
}

uint32_t pack_food_section(void)
{
    return SECTION_foods;
}

uint64_t pack_food_checksum(const struct library *library, const struct food *food)
{
    struct food copy = *food;
    copy.checksum = 0;
    size_t row = library->column_count * sizeof *library->values;
    const uint64_t parts[] = {
        hash_bytes(&copy, sizeof copy), hash_bytes(library->values + food->values, row), hash_bytes(library->values + food->varied, row),
        hash_bytes(library->values + food->tolerated, row), hash_bytes(library->listed + food->first_listed, food->listed_count * sizeof *library->listed),
        hash_bytes(library->portions + food->first_portion, food->portion_count * sizeof *library->portions),
        hash_bytes(library->spreads + food->first_spread, food->spread_count * sizeof *library->spreads),
    };
    uint64_t hash = 0;
    for (uint32_t i = 0; i < COUNT_OF(parts); i++)
        hash = hash_mix(hash ^ parts[i], 0x9e3779b97f4a7c15u + i);
    return hash;
}

uint64_t pack_checksum(const void *pack, size_t size)
{
    const unsigned char *bytes = pack;
    return hash_bytes(bytes + offsetof(struct pack_header, sections), size - offsetof(struct pack_header, sections));
}

size_t pack_section_size(uint32_t section)
{
    return section_sizes[section];
}

uint32_t pack_version(void)
{
    uint64_t hash = PACK_VERSION;
    for (uint32_t i = 0; i < PACK_SECTIONS; i++)
        hash = hash_mix(hash ^ section_sizes[i], 0xa0761d6478bd642fu + i);
    return (uint32_t)hash;
}
