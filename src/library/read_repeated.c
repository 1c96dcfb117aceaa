/* What one block says twice: nobody should have to guess which of the two holds.
 *
 * Two statements are about one thing if their words before the amount are the same. Of some statements the first words
 * alone tell what they are about, since the others are what is said of it; to some the name in quotes belongs; and some
 * may stand as often as one likes. */
#include "library/claim_reading.h"

enum about {
    ABOUT_WORDS,                        /* all words */
    ABOUT_START,                        /* the words of the row: `origin` of `origin cook-added` */
    ABOUT_NAMED,                        /* all words and the first name in quotes: `kind "food"` */
    ABOUT_MANY,                         /* each says something more, or its reader looks for the earlier one */
};

static const struct start {
    const char *words;
    enum about about;
} starts[] = {
    { "origin", ABOUT_START },          { "milder", ABOUT_START },       { "grains", ABOUT_MANY },
    { "within", ABOUT_START },          { "state", ABOUT_START },        { "evidence", ABOUT_START },
    { "compare", ABOUT_START },      { "labels as", ABOUT_START },
    { "convert", ABOUT_START },         { "with rules", ABOUT_START },   { "sex", ABOUT_START },
    { "symbol", ABOUT_START },          { "counts as", ABOUT_START },    { "holds", ABOUT_START },
    { "formula", ABOUT_START },         { "holds plain", ABOUT_WORDS },  { "kind", ABOUT_NAMED },
    { "reference amount", ABOUT_NAMED }, { "caution", ABOUT_NAMED },     { "equivalent", ABOUT_NAMED },
    { "disclosure", ABOUT_NAMED },      { "mark", ABOUT_NAMED },         { "term", ABOUT_NAMED },
    { "step", ABOUT_MANY },             { "for", ABOUT_MANY },           { "when", ABOUT_MANY },
    { "with", ABOUT_MANY },             { "words", ABOUT_MANY },         { "without", ABOUT_MANY },
    { "seen", ABOUT_MANY },             { "ingredients", ABOUT_MANY },   { "serving", ABOUT_MANY },
    { "zero percents under", ABOUT_MANY }, { "between", ABOUT_MANY },
    { "portion class none", ABOUT_START }, { "serving at least", ABOUT_WORDS },
    { "only with rules", ABOUT_START },
};

/* The row that fits with the most words. */
static const struct start *start_of(struct text words)
{
    static const struct start other = { "", ABOUT_WORDS };
    const struct start *best = &other;
    for (uint32_t i = 0; i < COUNT_OF(starts); i++) {
        if (claim_words_start(words, starts[i].words) && strlen(starts[i].words) > strlen(best->words))
            best = &starts[i];
    }
    return best;
}

/* Blocks whose statements are about something else than those of most. */
enum block {
    BLOCK_PLAIN,
    BLOCK_BLEND,                        /* its lines are shares, each of a food */
    BLOCK_SHELF,                        /* its lines are names of foods */
    BLOCK_LABEL,                        /* its figures are looked at by its reader, which knows other names of a nutrient */
    BLOCK_SUBSTANCE,                    /* it may be of several groups */
    BLOCK_TOLERANCE,                    /* it has as many bands as it likes, which its reader looks at */
    BLOCK_CLAIM,                        /* it has as many conditions as it likes */
    BLOCK_FIGURES,                      /* figures alone, which the reader looks at */
};

struct block_word {
    const char *word;
    enum block block;
};

static const struct block_word words_of_blocks[] = {
    { "blend", BLOCK_BLEND }, { "shelf", BLOCK_SHELF },       { "substance", BLOCK_SUBSTANCE },
    { "tolerance", BLOCK_TOLERANCE },
    { "term", BLOCK_CLAIM },  { "disclosure", BLOCK_CLAIM },  { "mark", BLOCK_CLAIM },
};

static enum block block_of(const struct builder *builder, const struct node *node, enum block outer)
{
    if (node->kind == NODE_LABEL || node->kind == NODE_CLAIM || node->kind == NODE_PER)
        return node->kind == NODE_LABEL ? BLOCK_LABEL : node->kind == NODE_CLAIM ? BLOCK_CLAIM : BLOCK_FIGURES;
    for (uint32_t i = 0; i < COUNT_OF(words_of_blocks) && node->kind == NODE_KNOWLEDGE && node->items.first; i++) {
        if (text_is(build_written(builder, node->items.first->span), words_of_blocks[i].word))
            return words_of_blocks[i].block;
    }
    return outer == BLOCK_CLAIM ? BLOCK_CLAIM : BLOCK_PLAIN;
}

/* What a statement is about; its kind is part of it. */
struct subject {
    char storage[256];
    struct text words, name;
};

static bool knowledge_subject(const struct builder *builder, const struct node *node, enum block block, struct subject *subject)
{
    const struct start *start = start_of(subject->words);
    if (block == BLOCK_CLAIM || (block == BLOCK_TOLERANCE && claim_words_start(subject->words, "within")) || (block == BLOCK_LABEL && build_nutrient(builder, subject->words) != NONE_INDEX))
        return false;
    if (start->about == ABOUT_START)
        subject->words = text_of(start->words);
    if (start->about == ABOUT_NAMED)
        subject->name = build_string_item(node->items.first) ? claim_string(builder, node->items.first, 0) : build_written(builder, node->span);
    return start->about != ABOUT_MANY && subject->words.length > 0;
}

/* False where the statement may stand as often as one likes. */
static bool set_subject(const struct builder *builder, const struct node *node, enum block block, struct subject *subject)
{
    subject->name = (struct text){ "", 0 };
    subject->words = build_words(builder, node->items.first, subject->storage, sizeof subject->storage);
    if (block == BLOCK_SHELF && node->kind != NODE_ALSO) {
        subject->words = build_written(builder, node->span);
        return true;
    }
    switch (node->kind) {
    case NODE_KNOWLEDGE: return knowledge_subject(builder, node, block, subject);
    case NODE_PORTION: return false;        /* tables have several of one measure: they are joined where one is used */
    case NODE_INGREDIENT: return block == BLOCK_BLEND && subject->words.length > 0;
    case NODE_GROUP:
    case NODE_SOURCE:
    case NODE_UNIT:
        subject->words = build_written(builder, node->keyword);
        return node->kind != NODE_GROUP || block != BLOCK_SUBSTANCE;
    default: return false;
    }
}

/* The statements of a block by what they are about. */
struct seen {
    struct table table;
    const struct node **nodes;
    uint32_t count, capacity;
};

static bool stood_before(const struct builder *builder, const struct seen *seen, const struct node *node, enum block block,
                         const struct subject *subject, uint64_t hash)
{
    struct subject other;
    uint32_t position;
    for (uint32_t at = table_find(&seen->table, hash, &position); at != TABLE_NONE; at = table_next(&seen->table, hash, &position)) {
        set_subject(builder, seen->nodes[at], block, &other);
        if (seen->nodes[at]->kind == node->kind && text_equal(other.words, subject->words) && text_equal(other.name, subject->name))
            return true;
    }
    return false;
}

static void look_at(struct builder *builder, struct seen *seen, const struct node *node, enum block block)
{
    struct subject subject;
    if (!set_subject(builder, node, block, &subject))
        return;
    uint64_t hash = hash_mix(hash_bytes(subject.words.bytes, subject.words.length), hash_bytes(subject.name.bytes, subject.name.length) + node->kind);
    if (stood_before(builder, seen, node, block, &subject, hash)) {
        finding_add(builder->findings, FINDING_REPEATED_STATEMENT, build_place(builder, node->span),
                    GAPS(subject.name.length ? subject.name : subject.words));
        return;
    }
    if (!array_grow(&builder->allocator, &seen->nodes, seen->count, &seen->capacity, sizeof *seen->nodes)
        || !table_add(&seen->table, hash, seen->count)) {
        builder->failed = true;
        return;
    }
    seen->nodes[seen->count++] = node;
}

static void check_block(struct builder *builder, const struct node *node, enum block block)
{
    struct seen seen = { .count = 0 };
    table_open(&seen.table, builder->allocator);
    for (const struct node *at = node->body; at; at = at->next) {
        look_at(builder, &seen, at, block);
        enum block inner = at->has_body ? block_of(builder, at, block) : BLOCK_FIGURES;
        if (inner != BLOCK_FIGURES)
            check_block(builder, at, inner);
    }
    table_close(&seen.table);
    if (seen.nodes)
        builder->allocator.resize(builder->allocator.context, seen.nodes, 0);
}

void build_check_repeated(struct builder *builder, const struct node *declaration)
{
    check_block(builder, declaration, block_of(builder, declaration, BLOCK_PLAIN));
}
