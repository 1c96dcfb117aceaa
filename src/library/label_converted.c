/* What labels print instead of a nutrient by some rules: salt, 2.5 times the sodium. */
#include "library/label.h"

uint32_t label_converted(const struct making *making, struct text words, double *factor)
{
    const struct rules *rules = making->builder->label_rules;
    bool converts = rules && rules->converted_nutrient != NONE_INDEX
                 && text_equal(library_text(making->builder->label_rules_owner, rules->converted), words);
    *factor = converts ? rules->converted_factor : 1;
    return converts ? rules->converted_nutrient : NONE_INDEX;
}

void label_note_converting(struct making *making, struct finding *finding, struct text words)
{
    char factor[32];
    for (const struct library *library = making->builder->base; library; library = library->base) {
        for (uint32_t i = 0; i < library->rules_count; i++) {
            const struct rules *rules = &library->rules[i];
            const struct library *owner;
            if (rules->converted_nutrient == NONE_INDEX || !text_equal(library_text(library, rules->converted), words))
                continue;
            const struct nutrient *nutrient = library_nutrient_at(library, rules->converted_nutrient, &owner);
            snprintf(factor, sizeof factor, "%g", rules->converted_factor);
            finding_note(making->builder->findings, finding, WORDS_LABEL_CONVERTED,
                         GAPS(library_text(library, rules->name), words, text_of(factor), library_text(owner, nutrient->name)));
        }
    }
}
