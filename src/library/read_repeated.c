/* What rules say twice: nobody should have to guess which of the two holds. */
#include "library/claim_reading.h"

/* What a statement is about: its words, and the first of its quoted names. */
struct subject {
    char storage[128];
    struct text words, name;
};

static void set_subject(struct subject *subject, const struct builder *builder, const struct node *node)
{
    subject->words = build_words(builder, node->items.first, subject->storage, sizeof subject->storage);
    subject->name = claim_string(builder, node->items.first, 0);
    if (text_is(subject->words, "panel") || text_is(subject->words, "title"))
        subject->name = (struct text){ "", 0 };         /* there is one of each, whatever it is called */
}

/* A further `zero percents under` names other nutrients, and claims have names of their own (read_conditions.c). */
static bool may_repeat(const struct node *node, struct text words)
{
    return node->kind != NODE_KNOWLEDGE || claim_words_start(words, "zero percents under");
}

void rules_check_repeated(struct builder *builder, const struct node *rules)
{
    struct subject one, other;
    for (const struct node *at = rules->body; at; at = at->next) {
        set_subject(&one, builder, at);
        bool repeated = false;
        for (const struct node *before = rules->body; before != at && !repeated && !may_repeat(at, one.words); before = before->next) {
            set_subject(&other, builder, before);
            repeated = before->kind == at->kind && text_equal(one.words, other.words) && text_equal(one.name, other.name);
        }
        if (repeated)
            finding_add(builder->findings, FINDING_REPEATED_STATEMENT, build_place(builder, at->span),
                        GAPS(one.name.length ? one.name : one.words));
    }
}
