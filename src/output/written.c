/* A recipe's block is parsed once more, for the words that its sums do not need. */
#include <string.h>

#include "output/written.h"

struct reading {
    struct arena *arena;
    struct written_words **end;
    struct text text;
    bool failed;
};

static void add_words(struct reading *reading, enum written_kind kind, struct span span)
{
    struct text words = span_text(reading->text, span);
    struct written_words *one = arena_take(reading->arena, sizeof *one);
    char *copy = one ? arena_copy(reading->arena, words.bytes, words.length) : NULL;
    if (!copy) {
        reading->failed = true;
        return;
    }
    *one = (struct written_words){ .kind = kind, .words = { copy, words.length } };
    *reading->end = one;
    reading->end = &one->next;
}

static void read_statements(struct reading *reading, const struct node *node, bool in_method)
{
    for (; node; node = node->next) {
        const struct item *first = node->items.first;
        bool quoted = first && first->kind == ITEM_STRING;
        if (node->kind == NODE_METHOD)
            read_statements(reading, node->body, true);
        else if (node->kind == NODE_PART || node->kind == NODE_BATH || node->kind == NODE_MEAL)
            read_statements(reading, node->body, false);
        else if (quoted && (node->kind == NODE_NOTE || node->kind == NODE_SOURCE))
            add_words(reading, node->kind == NODE_NOTE ? WRITTEN_NOTE : WRITTEN_SOURCE, first->span);
        else if (quoted && in_method && node->kind == NODE_KNOWLEDGE)
            add_words(reading, WRITTEN_STEP, first->span);
    }
}

static bool receive(void *context, struct node *node)
{
    read_statements(context, node->body, false);
    return false;
}

/* The ## comments without their signs. */
static bool read_introduction(struct text text, struct arena *arena, struct text *introduction)
{
    char *words = arena_take(arena, text.length + 1);
    uint32_t used = 0;
    for (uint32_t at = 0; words && at < text.length;) {
        const char *feed = memchr(text.bytes + at, '\n', text.length - at);
        uint32_t end = feed ? (uint32_t)(feed - text.bytes) : text.length, last = end;
        while (at < end && strchr("# \t", text.bytes[at]))
            at++;
        while (last > at && strchr(" \t\r", text.bytes[last - 1]))
            last--;
        if (used > 0 && last > at)
            words[used++] = ' ';
        memcpy(words + used, text.bytes + at, last - at);
        used += last - at;
        at = end + 1;
    }
    *introduction = (struct text){ words, used };
    return words != NULL;
}

/* The block with the two NULs behind it that the scanner needs. */
static bool parse_block(struct reading *reading, struct text block, struct allocator allocator)
{
    struct arena trees;
    struct findings findings;
    struct parse parse;
    char *bytes = arena_take(reading->arena, block.length + 2);
    if (!bytes)
        return false;
    memcpy(bytes, block.bytes, block.length);
    reading->text = (struct text){ bytes, block.length };
    arena_open(&trees, allocator);
    findings_open(&findings, &trees);
    parse_open(&parse, allocator, &trees, &findings, receive, reading);
    bool good = parse_text(&parse, 0, bytes, block.length) == STATUS_OK;
    parse_close(&parse);
    arena_close(&trees);
    return good && !reading->failed;
}

bool written_read(struct sources *sources, const struct recipe *recipe, struct arena *arena, struct written *written)
{
    struct reading reading = { .arena = arena, .end = &written->first };
    *written = (struct written){ .introduction = text_of("") };
    if (!sources_load(sources, recipe->file))
        return !sources->failed;
    return read_introduction(span_text(sources->text, recipe->document), arena, &written->introduction)
        && parse_block(&reading, span_text(sources->text, recipe->whole), sources->kitchen->allocator);
}
