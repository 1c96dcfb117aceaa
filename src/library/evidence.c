/* What the figures of a treatment rest on: one table of words, for reading and for telling. */
#include "library/build.h"

static const struct evidence_words {
    const char *word, *people, *former;
} evidence_words[EVIDENCE_COUNT] = {
    [EVIDENCE_NONE] = { "", "", "" },
#define EVIDENCE(name, word, people, former) [EVIDENCE_##name] = { word, people, former },
#include "library/evidence.def"
#undef EVIDENCE
};

struct text evidence_word(uint32_t evidence)
{
    return text_of(evidence_words[evidence].word);
}

struct text evidence_for_people(uint32_t evidence)
{
    return text_of(evidence_words[evidence].people);
}

/* `measured`, `measured on a like food`, …: all of them, strongest first, between `mark`s. */
static struct text list_words(const char *mark, char *storage, size_t size)
{
    size_t used = 0;
    for (uint32_t i = EVIDENCE_NONE + 1; i < EVIDENCE_COUNT; i++) {
        int length = snprintf(storage + used, size - used, "%s%s%s%s", i > EVIDENCE_NONE + 1 ? ", " : "", mark, evidence_words[i].word, mark);
        used += length > 0 && (size_t)length < size - used ? (size_t)length : 0;
    }
    return (struct text){ storage, (uint32_t)used };
}

struct text evidence_list(char storage[EVIDENCE_LIST_BYTES])
{
    return list_words("", storage, EVIDENCE_LIST_BYTES);
}

/* The evidence that is called `word`, or was called so before; EVIDENCE_NONE for none. */
static uint32_t find_word(struct text word, bool former)
{
    for (uint32_t i = EVIDENCE_NONE + 1; i < EVIDENCE_COUNT; i++) {
        const char *known = former ? evidence_words[i].former : evidence_words[i].word;
        if (*known && text_is(word, known))
            return i;
    }
    return EVIDENCE_NONE;
}

static void read_word(struct builder *builder, const struct node *node, struct treatment *treatment, struct text word)
{
    char storage[EVIDENCE_LIST_BYTES];
    uint32_t evidence = find_word(word, false);
    bool alone = node->quantity.kind == QUANTITY_NONE && !node->phrases.first;
    if (evidence && alone)
        treatment->evidence = evidence;
    else
        finding_add(builder->findings, FINDING_UNKNOWN_EVIDENCE, build_place(builder, node->span),
                    GAPS(build_written(builder, node->span), list_words("`", storage, sizeof storage)));
}

/* `grade C` is written `evidence estimated` now; before any other word `evidence` takes the place of `grade`. */
static void read_former(struct builder *builder, const struct node *node, struct treatment *treatment, struct text word)
{
    uint32_t evidence = find_word(word, true);
    char now[64];
    if (!evidence) {
        build_former_word(builder, node->items.first, "evidence");
        return;
    }
    struct span span = { node->items.first->span.start, node->items.last->span.end };
    snprintf(now, sizeof now, "evidence %s", evidence_words[evidence].word);
    finding_former_word(builder->findings, build_place(builder, span), build_written(builder, span), now);
    treatment->evidence = evidence;
}

bool read_evidence(struct builder *builder, const struct node *node, struct treatment *treatment)
{
    char first[64], rest[256];
    const struct item *item = node->items.first;
    struct item alone = item ? *item : (struct item){ 0 };
    alone.next = NULL;
    struct text word = item && item->kind == ITEM_WORD ? build_words(builder, &alone, first, sizeof first) : text_of("");
    bool former = text_is(word, "grade");
    if (!former && !text_is(word, "evidence"))
        return false;
    (former ? read_former : read_word)(builder, node, treatment, build_words(builder, item->next, rest, sizeof rest));
    return true;
}
