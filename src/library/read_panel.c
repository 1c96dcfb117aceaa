/* The panel of a rule pack: which lines it prints, in which order and how far in. Its figures round as all of the pack do. */
#include <string.h>

#include "library/build.h"

/* Takes the word off the start of the words; false where they start otherwise. */
static bool take_word(struct text *words, const char *word)
{
    uint32_t length = (uint32_t)strlen(word);
    if (words->length < length || memcmp(words->bytes, word, length) != 0)
        return false;
    *words = (struct text){ words->bytes + length, words->length - length };
    return true;
}

static bool take_end(struct text *words, const char *end)
{
    uint32_t length = (uint32_t)strlen(end);
    if (words->length < length || memcmp(words->bytes + words->length - length, end, length) != 0)
        return false;
    words->length -= length;
    return true;
}

/* `inset line saturated fat "Saturated fat"`, `line protein without percent "Protein"`, `line not known "…"`. */
static bool read_line(struct builder *builder, const struct node *node, struct text words)
{
    struct panel_line line = { .nutrient = NONE_INDEX };
    while (take_word(&words, "inset "))
        line.depth++;
    if (!take_word(&words, "line "))
        return false;
    line.flags = take_end(&words, " without percent") ? PANEL_WITHOUT_PERCENT : 0;
    struct text title = build_quoted(builder, node->items.first);
    if (!text_is(words, "not known")) {
        line.nutrient = build_nutrient(builder, words);
        if (line.nutrient == NONE_INDEX)
            finding_add(builder->findings, FINDING_UNKNOWN_NUTRIENT, build_place(builder, node->span), GAPS(words));
    }
    uint32_t number = title.length ? BUILD_ADD(builder, panel_lines) : NONE_INDEX;
    if (number == NONE_INDEX)
        return title.length > 0;
    line.title = build_text(builder, title);
    builder->panel_lines[number] = line;
    return true;
}

void read_panel(struct builder *builder, const struct node *node, struct rules *rules)
{
    rules->first_panel_line = builder->panel_lines_count;
    rules->panel_title = build_text(builder, build_quoted(builder, node->items.first));
    for (const struct node *at = node->body; at; at = at->next) {
        char storage[128];
        struct text words = build_words(builder, at->items.first, storage, sizeof storage);
        if (at->kind == NODE_SOURCE)
            rules->panel_source = build_text(builder, build_quoted(builder, at->items.first));
        else if (!read_line(builder, at, words))
            build_unknown_statement(builder, at, "panel");
    }
    rules->panel_line_count = builder->panel_lines_count - rules->first_panel_line;
}
