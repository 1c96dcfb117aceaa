/* --show STAGE: what a stage left, for newcomers and testers. The form is not a contract. */
#include <string.h>

#include "output/output.h"
#include "text/text.h"

struct dump {
    struct writer *writer;
    struct text text;
};

static void print_span(struct dump *dump, struct span span)
{
    writer_visible(dump->writer, span_text(dump->text, span));
}

static void indent(struct dump *dump, uint32_t depth)
{
    for (uint32_t i = 0; i < depth; i++)
        writer_add(dump->writer, text_of("  "));
}

/* ---- tree ----------------------------------------------------------------------------------------------------- */

static void print_items(struct dump *dump, const char *head, const struct item *items)
{
    static const char *const kinds[] = { "word", "string", "number", "range", "group", "bath" };
    if (items)
        writer_print(dump->writer, " %s[", head);
    for (const struct item *item = items; item; item = item->next) {
        writer_print(dump->writer, "%s%s:", item == items ? "" : " ", kinds[item->kind]);
        print_span(dump, item->span);
    }
    writer_add(dump->writer, text_of(items ? "]" : ""));
}

static void print_node(struct dump *dump, const struct node *node, uint32_t depth)
{
    static const char *const kinds[NODE_COUNT] = {
        [NODE_INGREDIENT] = "ingredient", [NODE_PORTION] = "portion", [NODE_ALTERNATIVE] = "alternative",
        [NODE_BOUND] = "bound", [NODE_PER] = "per", [NODE_KNOWLEDGE] = "knowledge", [NODE_BROKEN] = "broken",
#define KEYWORD(symbol, word, needs, opens) [NODE_##symbol] = word,
#include "text/keywords.def"
#undef KEYWORD
    };
    indent(dump, depth);
    writer_print(dump->writer, "%s", kinds[node->kind]);
    if (node->quantity.kind != QUANTITY_NONE)
        writer_print(dump->writer, " %g..%g", node->quantity.low, node->quantity.high);
    print_items(dump, "items", node->items.first);
    print_items(dump, "unit", node->unit.first);
    print_items(dump, "per", node->per.first);
    for (const struct phrase *phrase = node->names.first; phrase; phrase = phrase->next)
        print_items(dump, "name", phrase->items);
    for (const struct phrase *phrase = node->phrases.first; phrase; phrase = phrase->next)
        print_items(dump, "phrase", phrase->items);
    writer_add(dump->writer, text_of("\n"));
    for (const struct node *inner = node->body; inner; inner = inner->next)
        print_node(dump, inner, depth + 1);
}

static bool receive_node(void *context, struct node *node)
{
    print_node(context, node, 0);
    return false;
}

static bool receive_nothing(void *context, struct node *node)
{
    (void)context;
    (void)node;
    return false;
}

enum status show_tree(struct writer *writer, struct allocator allocator, struct findings *findings, char *bytes,
                      uint32_t length)
{
    struct parse parse;
    struct arena trees;
    struct dump dump = { writer, { bytes, length } };
    arena_open(&trees, allocator);
    parse_open(&parse, allocator, &trees, findings, receive_node, &dump);
    enum status status = parse_text(&parse, 0, bytes, length);
    parse_close(&parse);
    arena_close(&trees);
    return status;
}

/* ---- tokens ----------------------------------------------------------------------------------------------------- */

enum status show_tokens(struct writer *writer, struct allocator allocator, struct findings *findings, char *bytes,
                        uint32_t length)
{
    struct parse parse;
    struct arena trees;
    struct dump dump = { writer, { bytes, length } };
    arena_open(&trees, allocator);
    parse_open(&parse, allocator, &trees, findings, receive_nothing, NULL);
    enum status status = parse_start(&parse, 0, bytes, length);
    while (status == STATUS_OK && !parse.ended) {
        status = settle_stretch(&parse);
        for (uint32_t i = 0; i < parse.tokens.count; i++) {
            const struct token *token = &parse.tokens.at[i];
            writer_print(writer, "%u+%u kind %d%s ", token->start, token->length, token->kind, token->made ? " made" : "");
            print_span(&dump, (struct span){ token->start, token->start + token->length });
            writer_add(writer, text_of("\n"));
        }
    }
    parse_close(&parse);
    arena_close(&trees);
    return status;
}

/* ---- names, amounts, limits ---------------------------------------------------------------------------------------- */

void show_names(struct showing *showing, const struct sums *sums)
{
    struct writer *writer = showing->writer;
    for (uint32_t i = 0; i < sums->line_count; i++) {
        const struct line_amount *amount = &sums->lines[i];
        const struct resolved *resolved = amount->resolved;
        if (amount->line->tail != NONE_INDEX)
            writer_visible(writer, sums->at.gathering->tails[amount->line->tail].text);
        if (!resolved || resolved->subject == SUBJECT_NONE) {
            writer_print(writer, " -> nothing\n");
            continue;
        }
        struct text name = resolved->subject == SUBJECT_RECIPE ? resolved->recipe.recipe->name
                         : resolved->subject == SUBJECT_BATH ? resolved->rare->bath
                                                               : library_text(resolved->food.library, resolved->food.food->name);
        writer_print(writer, " -> ");
        writer_visible(writer, name);
        writer_print(writer, ", one is %g (%g to %g)%s%s%s\n", resolved->scale.best, resolved->scale.low, resolved->scale.high,
                     resolved->flags & RESOLVED_TOTAL ? ", in all" : "",
                     resolved->flags & RESOLVED_WEIGHED_AFTER ? ", weighed after" : "", resolved->done.keeps ? ", treated" : "");
    }
}

void show_amounts(struct showing *showing, const struct sums *sums)
{
    const struct library *library = showing->kitchen->library, *owner;
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        const struct nutrient *nutrient = library_nutrient_at(library, i, &owner);
        struct text key = library_text(owner, nutrient->key);
        struct range total = sums->total.column[i];
        writer_print(showing->writer, "%.*s %.9g %.9g %.9g%s\n", (int)key.length, key.bytes, total.low, total.best, total.high,
                     amounts_complete(&sums->total, i) ? "" : " incomplete");
    }
}

void show_limits(struct showing *showing, const struct verdicts *verdicts)
{
    for (uint32_t i = 0; i < verdicts->count; i++) {
        const struct verdict *verdict = &verdicts->at[i];
        writer_print(showing->writer, "%s: %.9g to %.9g against %.9g to %.9g\n", outcome_name(verdict->outcome),
                     verdict->value.low, verdict->value.high, verdict->bound->has_least ? verdict->bound->least : 0,
                     verdict->bound->has_most ? verdict->bound->most : 0);
    }
}
