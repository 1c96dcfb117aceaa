/* Kinds of persons by their words, and whose a published figure is. */
#include "library/library.h"

const struct person *library_person(const struct library *library, struct text word, const struct library **owner)
{
    char key[KEY_BYTES];
    struct text found = { key, name_key_of(word, false, key) };
    for (; library; library = library->base) {
        const struct name *name = library_find(library, SPACE_PERSON, found, NULL);
        *owner = library;
        if (name)
            return &library->persons[name->index];
    }
    return NULL;
}

const struct person *library_policy_person(const struct library *library, const struct library **owner)
{
    for (; library; library = library->base) {
        *owner = library;
        for (uint32_t i = 0; i < library->persons_count; i++) {
            if (library->persons[i].of_policies)
                return &library->persons[i];
        }
    }
    return NULL;
}

bool intake_is_for(const struct library *owner, const struct intake_figure *figure, uint32_t sexes, struct text state, double low, double high)
{
    return (figure->sexes & sexes) && text_equal(library_text(owner, figure->state), state) && figure->low < high && low < figure->high;
}
