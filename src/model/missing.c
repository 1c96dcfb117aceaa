/* A line that does not begin with its amount: which words say best how to mend it. */
#include <string.h>

#include "model/collect.h"

struct number_word {
    const char *word, *digits;
};

static const struct number_word number_words[] = {
    { "a", "1" },     { "an", "1" },    { "one", "1" },   { "two", "2" },   { "three", "3" },   { "four", "4" }, { "five", "5" },
    { "six", "6" },   { "seven", "7" }, { "eight", "8" }, { "nine", "9" }, { "ten", "10" },    { "eleven", "11" }, { "twelve", "12" },
    { "half", "1/2" }, { "quarter", "1/4" },
};

static const char *digits_of(struct text word)
{
    char lower[8];
    uint32_t length = word.length < sizeof lower ? utf8_fold(word.bytes, word.length, lower, sizeof lower) : 0;
    for (uint32_t i = 0; i < COUNT_OF(number_words); i++) {
        if (text_is((struct text){ lower, length }, number_words[i].word))
            return number_words[i].digits;
    }
    return NULL;
}

static bool has_word(const struct gathering *gathering, const struct item *items, const char *word)
{
    for (; items; items = items->next) {
        if (items->kind == ITEM_WORD && text_is(collect_written(gathering, items->span), word))
            return true;
    }
    return false;
}

/* `half an onion`, but not `half and half`. */
static struct finding *say_number_word(struct gathering *gathering, const struct item *first, struct place place)
{
    struct text word = collect_written(gathering, first->span);
    const char *digits = digits_of(word);
    if (!digits || has_word(gathering, first, "and"))
        return NULL;
    struct finding *finding = finding_add(&gathering->findings, FINDING_AMOUNT_IN_WORDS, place, GAPS(word, text_of(digits)));
    finding_fix(&gathering->findings, finding, collect_place(gathering, first->span), text_of(digits), WORDS_FIX_WRITE,
                GAPS(text_of(digits)));
    return finding;
}

void collect_missing_amount(struct gathering *gathering, const struct node *node, struct place place, struct text name)
{
    struct findings *findings = &gathering->findings;
    struct span start = { node->items.first->span.start, node->items.first->span.start };
    if (say_number_word(gathering, node->items.first, place))
        return;
    if (node->quantity.kind != QUANTITY_NONE) {
        bool of = text_is(collect_written(gathering, node->items.last->span), "of");
        finding_add(findings, of ? FINDING_AMOUNT_BEHIND_OF : FINDING_AMOUNT_LAST, place, GAPS(name));
        return;
    }
    char key[KEY_BYTES];
    struct text known = { key, name_key_of(name, false, key) };
    bool two = has_word(gathering, node->items.first, "and") && !library_food(gathering->kitchen->stdlib, known).food;
    struct finding *finding = finding_add(findings, two ? FINDING_MISSING_AMOUNTS : FINDING_MISSING_AMOUNT, place, GAPS(name));
    if (!two)
        finding_fix(findings, finding, collect_place(gathering, start), text_of("some "), WORDS_FIX_SOME, NO_GAPS);
}
