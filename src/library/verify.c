/* Verification of packs: every number that a later read follows. What is computed with is looked at in verify_figures.c. */
#include <string.h>

#include "library/pack.h"

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
    return group == NONE_INDEX || group < library->group_first + library->groups_count;
}

static bool nutrient_fits(const struct library *library, uint32_t nutrient)
{
    return nutrient < library->nutrient_total || nutrient >= ROUNDING_CONVERTED;
}

static bool verify_vocabulary(const struct library *library)
{
    bool good = library->nutrients_count <= (library->base ? 0 : LIMIT_NUTRIENTS);
    for (uint32_t i = 0; i < library->nutrients_count; i++) {
        const struct nutrient *nutrient = &library->nutrients[i];
        good = good && text_fits(library, nutrient->name) && text_fits(library, nutrient->key)
            && text_fits(library, nutrient->unit) && text_fits(library, nutrient->linked);
    }
    for (uint32_t i = 0; i < library->units_count; i++) {
        const struct unit *unit = &library->units[i];
        good = good && text_fits(library, unit->name) && text_fits(library, unit->source)
            && text_fits(library, unit->state) && unit->dimension <= DIMENSION_AMBIGUOUS
            && in_list(unit->first_between, unit->between_count, library->texts_count)
            && in_list(unit->first_size, unit->size_count, library->package_sizes_count);
    }
    for (uint32_t i = 0; i < library->groups_count; i++) {
        const struct group *group = &library->groups[i];        /* a parent comes first, so that no walk up is endless */
        good = good && text_fits(library, group->name) && text_fits(library, group->hazard) && text_fits(library, group->hazard_source)
            && (group->parent == NONE_INDEX || group->parent < library->group_first + i)
            && group->origin <= ORIGIN_COUNT;
    }
    for (uint32_t i = 0; i < library->elements_count; i++) {
        const struct element *element = &library->elements[i];
        good = good && text_fits(library, element->name) && text_fits(library, element->symbol)
            && (element->nutrient == NONE_INDEX || element->nutrient < library->nutrient_total);
    }
    for (uint32_t i = 0; i < library->doublings_count; i++)
        good = good && group_fits(library, library->doublings[i].group) && group_fits(library, library->doublings[i].with)
            && text_fits(library, library->doublings[i].treatment);
    for (uint32_t i = 0; i < library->shelves_count; i++)
        good = good && text_fits(library, library->shelves[i].name)
            && in_list(library->shelves[i].first_kind, library->shelves[i].kind_count, library->texts_count);
    return good;
}

static bool portion_fits(const struct library *library, const struct portion *portion)
{
    return text_fits(library, portion->unit) && text_fits(library, portion->state) && text_fits(library, portion->source)
        && portion_figures_fit(portion);
}

static bool row_fits(const struct library *library, uint32_t first)
{
    bool good = in_list(first, library->column_count, library->values_count);
    for (uint32_t i = 0; good && i < library->column_count; i++)
        good = pack_range_fits(library->values[first + i]);
    return good;
}

static bool food_fits(const struct library *library, const struct food *food)
{
    return text_fits(library, food->name) && text_fits(library, food->source) && text_fits(library, food->milder)
        && text_fits(library, food->refuse_what) && text_fits(library, food->refuse_source) && food->refuse_kind < REFUSE_KINDS
        && group_fits(library, food->group) && food->state <= FOOD_STATE_NOT_STATED && food->basis <= FOOD_PER_SERVING
        && row_fits(library, food->values) && row_fits(library, food->varied) && row_fits(library, food->tolerated)
        && food_figures_fit(library, food)
        && in_list(food->first_listed, food->listed_count, library->listed_count)
        && in_list(food->first_spread, food->spread_count, library->spreads_count)
        && in_list(food->first_portion, food->portion_count, library->portions_count)
        && in_list(food->first_grain, food->grain_count, library->texts_count);
}

void pack_seal(void *pack, const struct library *base)
{
    struct library library;
    struct pack_header *header = pack;
    library_view(&library, pack, base);
    struct food *foods = (void *)((unsigned char *)pack + header->sections[pack_food_section()].offset);
    for (uint32_t i = 0; i < library.foods_count; i++) {
        if (food_fits(&library, &foods[i]))
            foods[i].checksum = pack_food_checksum(&library, &foods[i]);
    }
    header->vocabulary = pack_vocabulary_checksum(pack);
    header->checksum = pack_checksum(pack, header->size);
}

static bool verify_foods(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->foods_count; i++)
        good = good && food_fits(library, &library->foods[i]);
    for (uint32_t i = 0; i < library->texts_count; i++)
        good = good && text_fits(library, library->texts[i]);
    for (uint32_t i = 0; i < library->spreads_count; i++)
        good = good && spread_figures_fit(library, &library->spreads[i]);
    for (uint32_t i = 0; i < library->portions_count; i++)
        good = good && portion_fits(library, &library->portions[i]);
    return good;
}

static bool verify_treatments(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->treatments_count; i++) {
        const struct treatment *treatment = &library->treatments[i];
        good = good && text_fits(library, treatment->name) && text_fits(library, treatment->source)
            && in_list(treatment->first_group, treatment->group_count, library->references_count)
            && in_list(treatment->first_effect, treatment->effect_count, library->effects_count) && treatment->evidence < EVIDENCE_COUNT;
    }
    for (uint32_t i = 0; i < library->effects_count; i++)
        good = good && (library->effects[i].nutrient == EFFECT_OTHERS || library->effects[i].nutrient < library->nutrient_total);
    return good;
}

/* What labels are checked by, and what their lists of ingredients are searched for. */
static bool verify_packets(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->label_checks_count; i++)
        good = good && nutrient_fits(library, library->label_checks[i].nutrient) && text_fits(library, library->label_checks[i].source)
            && in_list(library->label_checks[i].first_part, library->label_checks[i].part_count, library->check_parts_count);
    for (uint32_t i = 0; i < library->check_parts_count; i++)
        good = good && library->check_parts[i].nutrient < library->nutrient_total
            && (library->check_parts[i].whole == NONE_INDEX || library->check_parts[i].whole < library->nutrient_total);
    for (uint32_t i = 0; i < library->tolerances_count; i++)
        good = good && library->tolerances[i].nutrient < library->nutrient_total && text_fits(library, library->tolerances[i].source)
            && in_list(library->tolerances[i].first_band, library->tolerances[i].band_count, library->tolerance_bands_count);
    for (uint32_t i = 0; i < library->listed_count; i++)
        good = good && text_fits(library, library->listed[i].written) && text_fits(library, library->listed[i].kind)
            && (library->listed[i].nutrient == NONE_INDEX || library->listed[i].nutrient < library->nutrient_total);
    for (uint32_t i = 0; i < library->crafts_count; i++) {
        const struct craft *craft = &library->crafts[i];
        good = good && library->crafts_count <= LIMIT_CRAFTS && text_fits(library, craft->name) && text_fits(library, craft->source)
            && in_list(craft->first_words, craft->words_count, library->texts_count)
            && in_list(craft->first_titles, craft->titles_count, library->texts_count)
            && in_list(craft->first_without, craft->without_count, library->texts_count);
    }
    for (uint32_t i = 0; i < library->substances_count; i++) {
        const struct substance *substance = &library->substances[i];
        good = good && text_fits(library, substance->name) && text_fits(library, substance->source)
            && (substance->nutrient == NONE_INDEX || substance->nutrient < library->nutrient_total)
            && in_list(substance->first_words, substance->words_count, library->texts_count)
            && in_list(substance->first_without, substance->without_count, library->texts_count)
            && in_list(substance->first_group, substance->group_count, library->references_count);
    }
    return good;
}

static bool verify_cautions(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->cautions_count; i++)
        good = good && text_fits(library, library->cautions[i].words) && text_fits(library, library->cautions[i].source)
            && text_fits(library, library->cautions[i].exactly)
            && in_list(library->cautions[i].first_when, library->cautions[i].when_count, library->whens_count);
    for (uint32_t i = 0; i < library->whens_count; i++) {
        const struct when *when = &library->whens[i];
        good = good && text_fits(library, when->words) && when->kind < WHEN_HAZARD
            && (when->kind != WHEN_GOAL || when->number < library->nutrient_total)
            && (when->kind != WHEN_BRINGS || when->nutrient < library->nutrient_total)
            && (!(when->kind == WHEN_FOOD || when->kind == WHEN_BRINGS || when->kind == WHEN_AMOUNT) || (when->number != NONE_INDEX && group_fits(library, when->number)));
    }
    return good;
}

static bool verify_conditions(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->conditions_count; i++) {
        const struct condition *condition = &library->conditions[i];
        good = good && condition->kind < CONDITION_KINDS && condition->basis < PER_NOT_COMPUTED
            && condition->column < library->column_count
            && in_list(condition->first_group, condition->group_count, library->references_count)
            && text_fits(library, condition->claim) && text_fits(library, condition->words) && text_fits(library, condition->source);
    }
    return good;
}

static bool verify_claims(const struct library *library)
{
    bool good = verify_conditions(library);
    for (uint32_t i = 0; i < library->measures_count; i++)
        good = good && text_fits(library, library->measures[i].unit) && text_fits(library, library->measures[i].source);
    for (uint32_t i = 0; i < library->claim_kinds_count; i++)
        good = good && text_fits(library, library->claim_kinds[i].name) && text_fits(library, library->claim_kinds[i].source)
            && text_fits(library, library->claim_kinds[i].unchecked);
    for (uint32_t i = 0; i < library->portion_classes_count; i++)
        good = good && text_fits(library, library->portion_classes[i].name)
            && in_list(library->portion_classes[i].first_group, library->portion_classes[i].group_count, library->references_count);
    for (uint32_t i = 0; i < library->reference_amounts_count; i++)
        good = good && text_fits(library, library->reference_amounts[i].name) && text_fits(library, library->reference_amounts[i].source);
    for (uint32_t i = 0; i < library->claims_count; i++) {
        const struct claim *claim = &library->claims[i];
        good = good && text_fits(library, claim->name) && text_fits(library, claim->source) && claim->use <= CLAIM_TERM
            && claim->rules < library->rules_count && in_list(claim->first_condition, claim->condition_count, library->conditions_count);
    }
    return good;
}

static bool verify_rules(const struct library *library)
{
    bool good = verify_claims(library);
    for (uint32_t i = 0; i < library->rules_count; i++) {
        const struct rules *rules = &library->rules[i];
        good = good && text_fits(library, rules->name) && text_fits(library, rules->title)
            && in_list(rules->first_rounding, rules->rounding_count, library->roundings_count)
            && in_list(rules->first_daily_value, rules->daily_value_count, library->daily_values_count)
            && in_list(rules->first_equivalent, rules->equivalent_count, library->equivalents_count)
            && in_list(rules->first_panel_line, rules->panel_line_count, library->panel_lines_count)
            && text_fits(library, rules->panel_title) && text_fits(library, rules->panel_source)
            && rules->caution_count <= 2 * LIMIT_CAUTIONS && in_list(rules->first_caution, rules->caution_count, library->cautions_count)
            && in_list(rules->first_check, rules->check_count, library->label_checks_count)
            && in_list(rules->first_tolerance, rules->tolerance_count, library->tolerances_count)
            && text_fits(library, rules->daily_name) && text_fits(library, rules->notice) && text_fits(library, rules->converted) && text_fits(library, rules->converted_source) && text_fits(library, rules->labels_as)
            && (rules->converted_nutrient == NONE_INDEX || rules->converted_nutrient < library->nutrient_total) && in_list(rules->first_measure, rules->measure_count, library->measures_count)
            && in_list(rules->first_claim_kind, rules->claim_kind_count, library->claim_kinds_count)
            && in_list(rules->first_portion_class, rules->portion_class_count, library->portion_classes_count)
            && in_list(rules->first_claim, rules->claim_count, library->claims_count)
            && in_list(rules->first_reference_amount, rules->reference_amount_count, library->reference_amounts_count)
            && (rules->compare_over == NONE_INDEX || rules->compare_over < library->nutrient_total)
            && (rules->compare_under == NONE_INDEX || rules->compare_under < library->nutrient_total);
    }
    for (uint32_t i = 0; i < library->roundings_count; i++)
        good = good && text_fits(library, library->roundings[i].source)
            && nutrient_fits(library, library->roundings[i].nutrient)
            && in_list(library->roundings[i].first_band, library->roundings[i].band_count, library->bands_count);
    for (uint32_t i = 0; i < library->daily_values_count; i++)
        good = good && text_fits(library, library->daily_values[i].source)
            && nutrient_fits(library, library->daily_values[i].nutrient);
    for (uint32_t i = 0; i < library->panel_lines_count; i++) {
        const struct panel_line *line = &library->panel_lines[i];
        good = good && text_fits(library, line->title) && (line->nutrient == NONE_INDEX || line->nutrient < library->nutrient_total);
    }
    for (uint32_t i = 0; i < library->equivalents_count; i++)
        good = good && text_fits(library, library->equivalents[i].food) && text_fits(library, library->equivalents[i].unit);
    return good && verify_cautions(library) && verify_packets(library);
}

static bool verify_intakes(const struct library *library)
{
    bool good = true;
    for (uint32_t i = 0; i < library->persons_count; i++) {
        const struct person *person = &library->persons[i];
        good = good && text_fits(library, person->name) && text_fits(library, person->state) && text_fits(library, person->defers)
            && text_fits(library, person->defers_source);
    }
    for (uint32_t i = 0; i < library->intakes_count; i++) {
        const struct intake *intake = &library->intakes[i];
        good = good && text_fits(library, intake->title) && text_fits(library, intake->rules) && text_fits(library, intake->low_words)
            && text_fits(library, intake->low_source)
            && (intake->low_nutrient == NONE_INDEX || intake->low_nutrient < library->nutrient_total)
            && in_list(intake->first_figure, intake->figure_count, library->intake_figures_count);
    }
    for (uint32_t i = 0; i < library->intake_figures_count; i++) {
        const struct intake_figure *figure = &library->intake_figures[i];
        good = good && figure->nutrient < library->nutrient_total && figure->kind <= INTAKE_AT_LEAST
            && text_fits(library, figure->state) && text_fits(library, figure->source);
    }
    return good;
}

uint32_t library_space_size(const struct library *library, uint32_t space)
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
    case SPACE_ELEMENT: return library->elements_count;
    case SPACE_PERSON: return library->persons_count;
    case SPACE_CLAIM: return library->claims_count;
    case SPACE_REFERENCE: return library->reference_amounts_count;
    }
    return 0;
}

/* A search goes round a table whose size is a power of two. */
static bool slots_are_a_table(const struct library *library)
{
    return (library->slots_count & (library->slots_count - 1)) == 0;
}

static bool verify_names(const struct library *library)
{
    uint32_t empty = 0;
    bool good = true;
    for (uint32_t i = 0; i < library->names_count; i++) {
        const struct name *name = &library->names[i];
        good = good && text_fits(library, name->key) && text_fits(library, name->written)
            && name->index < library_space_size(library, name->space);
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
        if (section->offset % 8 || section->offset > size || section->count > (size - section->offset) / pack_section_size(i))
            return false;
    }
    return true;
}

static enum pack_trouble examine_header(const void *pack, size_t size, const struct library *base)
{
    const struct pack_header *header = pack;
    if (size < sizeof *header || (uintptr_t)pack % 8 || memcmp(header->magic, PACK_MAGIC, sizeof header->magic) != 0)
        return PACK_NOT_ONE;
    if (header->byte_order != PACK_BYTE_ORDER)
        return PACK_OTHER_MACHINE;
    if (header->version != pack_version())
        return PACK_OTHER_VERSION;
    if (header->size != size)
        return PACK_TRUNCATED;
    if (header->base != (base ? base->checksum : 0))
        return PACK_OTHER_BASE;
    return verify_sections(header, size) && header->vocabulary == pack_vocabulary_checksum(pack) ? PACK_SOUND : PACK_DAMAGED;
}

enum pack_trouble pack_verify_head(const void *pack, size_t size, const struct library *base)
{
    struct library library;
    enum pack_trouble trouble = examine_header(pack, size, base);
    if (trouble != PACK_SOUND)
        return trouble;
    library_view(&library, pack, base);
    return verify_vocabulary(&library) && verify_treatments(&library) && verify_rules(&library) && verify_intakes(&library) && slots_are_a_table(&library)
                   && pack_figures_fit(&library)
               ? PACK_SOUND : PACK_DAMAGED;
}

enum pack_trouble pack_verify(const void *pack, size_t size, const struct library *base)
{
    struct library library;
    enum pack_trouble trouble = pack_verify_head(pack, size, base);
    if (trouble != PACK_SOUND)
        return trouble;
    library_view(&library, pack, base);
    return library.checksum == pack_checksum(pack, size) && verify_foods(&library) && verify_names(&library) ? PACK_SOUND : PACK_DAMAGED;
}

bool food_is_sound(const struct library *library, const struct food *food)
{
    if (!food_fits(library, food) || food->checksum != pack_food_checksum(library, food))
        return false;
    bool good = true;
    for (uint32_t i = 0; i < food->portion_count; i++)
        good = good && portion_fits(library, &library->portions[food->first_portion + i]);
    for (uint32_t i = 0; i < food->spread_count; i++)
        good = good && spread_figures_fit(library, &library->spreads[food->first_spread + i]);
    return good;
}

const char *pack_trouble_words(enum pack_trouble trouble)
{
    static const char *const words[] = {
        "it is sound",
        "this is no library pack",
        "it was made on a machine that writes numbers in another order: make it again here with `quern pack`",
        "it was made by another version of Quern: make it again with `quern pack`",
        "it was made with another library below it: make it again with `quern pack`",
        "it is not as long as it says: copy it again, or make it again with `quern pack`",
        "it is damaged: copy it again, or make it again with `quern pack`",
    };
    return words[trouble];
}
