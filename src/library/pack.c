/* The bytes of a pack: a header with the place of every array, then the arrays. No pointer stands in it. */
#include <string.h>

#include "library/pack.h"

enum {
#define SECTION(field, type) SECTION_##field,
#include "library/sections.def"
#undef SECTION
    SECTION_COUNT
};

_Static_assert(SECTION_COUNT == PACK_SECTIONS, "library/pack.h counts the sections");

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
    library->traced = NONE_INDEX;
    for (uint32_t i = 0; i < first->nutrients_count; i++) {
        if (first->nutrients[i].traced)
            library->traced = i;
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

/* ---- verification: every number that a later read follows --------------------------------------------------- */

static bool in_list(uint32_t first, uint32_t count, uint32_t total)
{
    return first <= total && count <= total - first;
}

static bool text_fits(const struct library *library, struct pack_text text)
{
    return in_list(text.offset, text.length, library->strings_count);
}

static bool group_fits(const struct library *library, uint32_t group)
{
    return group == NONE_INDEX || group < library->groups_count;
}

static bool nutrient_fits(const struct library *library, uint32_t nutrient)
{
    return nutrient < library->nutrients_count || nutrient >= ROUNDING_SERVINGS;
}

static bool verify_vocabulary(const struct library *library)
{
    bool good = library->nutrients_count <= LIMIT_NUTRIENTS;
    for (uint32_t i = 0; i < library->nutrients_count; i++) {
        const struct nutrient *nutrient = &library->nutrients[i];
        good = good && text_fits(library, nutrient->name) && text_fits(library, nutrient->key)
            && text_fits(library, nutrient->unit) && nutrient->unit_factor > 0;
    }
    for (uint32_t i = 0; i < library->units_count; i++) {
        const struct unit *unit = &library->units[i];
        good = good && text_fits(library, unit->name) && text_fits(library, unit->state)
            && unit->dimension <= DIMENSION_AMBIGUOUS
            && in_list(unit->first_between, unit->between_count, library->texts_count);
    }
    for (uint32_t i = 0; i < library->groups_count; i++) {
        const struct group *group = &library->groups[i];        /* a parent comes first, so that no walk up is endless */
        good = good && text_fits(library, group->name) && (group->parent == NONE_INDEX || group->parent < i)
            && group->origin <= ORIGIN_COUNT;
    }
    for (uint32_t i = 0; i < library->texts_count; i++)
        good = good && text_fits(library, library->texts[i]);
    return good;
}

static bool verify_foods(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->foods_count; i++) {
        const struct food *food = &library->foods[i];
        good = good && text_fits(library, food->name) && text_fits(library, food->source)
            && text_fits(library, food->milder) && group_fits(library, food->group)
            && food->state <= FOOD_STATE_NOT_STATED && food->basis <= FOOD_PER_SERVING
            && in_list(food->values, library->column_count, library->values_count)
            && in_list(food->varied, library->column_count, library->values_count)
            && in_list(food->first_spread, food->spread_count, library->spreads_count)
            && in_list(food->first_portion, food->portion_count, library->portions_count)
            && in_list(food->first_grain, food->grain_count, library->texts_count);
    }
    for (uint32_t i = 0; i < library->spreads_count; i++)
        good = good && library->spreads[i].nutrient < library->nutrients_count;
    for (uint32_t i = 0; i < library->portions_count; i++)
        good = good && text_fits(library, library->portions[i].unit) && text_fits(library, library->portions[i].state);
    for (uint32_t i = 0; i < library->shelves_count; i++)
        good = good && text_fits(library, library->shelves[i].name)
            && in_list(library->shelves[i].first_kind, library->shelves[i].kind_count, library->texts_count);
    return good;
}

static bool verify_treatments(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->treatments_count; i++) {
        const struct treatment *treatment = &library->treatments[i];
        good = good && text_fits(library, treatment->name) && text_fits(library, treatment->source)
            && in_list(treatment->first_group, treatment->group_count, library->references_count)
            && in_list(treatment->first_effect, treatment->effect_count, library->effects_count);
    }
    for (uint32_t i = 0; i < library->effects_count; i++)
        good = good && (library->effects[i].nutrient == EFFECT_OTHERS
                        || library->effects[i].nutrient < library->nutrients_count);
    return good;
}

static bool verify_rules(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->rules_count; i++) {
        const struct rules *rules = &library->rules[i];
        good = good && text_fits(library, rules->name) && text_fits(library, rules->title)
            && in_list(rules->first_rounding, rules->rounding_count, library->roundings_count)
            && in_list(rules->first_daily_value, rules->daily_value_count, library->daily_values_count)
            && in_list(rules->first_equivalent, rules->equivalent_count, library->equivalents_count)
            && in_list(rules->first_caution, rules->caution_count, library->cautions_count)
            && (rules->compare_over == NONE_INDEX || rules->compare_over < library->nutrients_count)
            && (rules->compare_under == NONE_INDEX || rules->compare_under < library->nutrients_count);
    }
    for (uint32_t i = 0; i < library->roundings_count; i++)
        good = good && text_fits(library, library->roundings[i].source)
            && nutrient_fits(library, library->roundings[i].nutrient)
            && in_list(library->roundings[i].first_band, library->roundings[i].band_count, library->bands_count);
    for (uint32_t i = 0; i < library->bands_count; i++)
        good = good && library->bands[i].step > 0;
    for (uint32_t i = 0; i < library->daily_values_count; i++)
        good = good && text_fits(library, library->daily_values[i].source) && library->daily_values[i].amount > 0
            && nutrient_fits(library, library->daily_values[i].nutrient);
    for (uint32_t i = 0; i < library->equivalents_count; i++)
        good = good && text_fits(library, library->equivalents[i].food) && text_fits(library, library->equivalents[i].unit);
    for (uint32_t i = 0; i < library->cautions_count; i++)
        good = good && text_fits(library, library->cautions[i].words) && text_fits(library, library->cautions[i].source);
    return good;
}

static uint32_t space_size(const struct library *library, uint32_t space)
{
    switch (space) {
    case SPACE_FOOD:
    case SPACE_LABEL: return library->foods_count;
    case SPACE_SHELF: return library->shelves_count;
    case SPACE_UNIT: return library->units_count;
    case SPACE_TREATMENT: return library->treatments_count;
    case SPACE_NUTRIENT: return library->nutrients_count;
    case SPACE_GROUP: return library->groups_count;
    case SPACE_RULES: return library->rules_count;
    case SPACE_SPELLING: return library->texts_count;
    }
    return 0;
}

static bool verify_names(const struct library *library)
{
    uint32_t empty = 0;
    bool good = (library->slots_count & (library->slots_count - 1)) == 0;
    for (uint32_t i = 0; i < library->names_count; i++) {
        const struct name *name = &library->names[i];
        good = good && text_fits(library, name->key) && text_fits(library, name->written)
            && name->index < space_size(library, name->space);
    }
    for (uint32_t i = 0; i < library->slots_count; i++) {
        empty += library->slots[i].name == NONE_INDEX;
        good = good && (library->slots[i].name == NONE_INDEX || library->slots[i].name < library->names_count);
    }
    return good && (library->slots_count == 0 || empty > 0);
}

static bool verify_sections(const struct pack_header *header, size_t size)
{
    for (uint32_t i = 0; i < PACK_SECTIONS; i++) {
        const struct pack_section *section = &header->sections[i];
        if (section->offset % 8 || section->offset > size || section->count > (size - section->offset) / section_sizes[i])
            return false;
    }
    return true;
}

enum status pack_verify(const void *pack, size_t size)
{
    const struct pack_header *header = pack;
    struct library library;
    if (size < sizeof *header || (uintptr_t)pack % 8 || memcmp(header->magic, PACK_MAGIC, sizeof header->magic) != 0)
        return STATUS_BAD_PACK;
    if (header->version != pack_version() || header->size != size || header->byte_order != PACK_BYTE_ORDER
        || header->checksum != pack_checksum(pack, size) || !verify_sections(header, size))
        return STATUS_BAD_PACK;
    library_view(&library, pack, NULL);
    return verify_vocabulary(&library) && verify_foods(&library) && verify_treatments(&library)
        && verify_rules(&library) && verify_names(&library) ? STATUS_OK : STATUS_BAD_PACK;
}
