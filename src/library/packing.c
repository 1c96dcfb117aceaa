/* Text files into a pack, declaration by declaration: a tree is dropped when it was read, so that memory grows with
 * the pack alone. */
#include <string.h>

#include "library/packing.h"

static bool take_declaration(void *context, struct node *node)
{
    struct packing *packing = context;
    struct declaration declaration = { .node = node, .text = packing->parse.text, .file = packing->parse.file };
    if (library_takes(declaration.text, node))
        library_builder_read(packing->builder, &declaration, packing->pass);
    else if (packing->pass == PACKING_SPEAKS && node->kind != NODE_NOTE && node->kind != NODE_SOURCE && node->kind != NODE_BROKEN)
        finding_add(packing->findings, FINDING_NOT_FOR_A_PACK, (struct place){ declaration.file, node->span },
                    GAPS(span_text(declaration.text, node->keyword.end ? node->keyword : node->span)));
    return false;
}

bool packing_open(struct packing *packing, struct allocator allocator, const struct library *base, const struct rules *rules,
                  const struct library *rules_owner, struct findings *findings)
{
    *packing = (struct packing){ .findings = findings };
    arena_open(&packing->trees, allocator);
    arena_open(&packing->quiet_arena, allocator);
    parse_open(&packing->parse, allocator, &packing->trees, findings, take_declaration, packing);
    packing->builder = library_builder_open(allocator, base, rules, rules_owner, findings);
    return packing->builder != NULL;
}

enum status packing_read(struct packing *packing, uint32_t file, char *bytes, uint32_t length, uint32_t pass)
{
    if (pass > PACKING_SPEAKS && !library_builder_needs(packing->builder, pass))
        return STATUS_OK;
    struct arena_mark mark = arena_mark(&packing->quiet_arena);
    struct findings quiet;
    findings_open(&quiet, &packing->quiet_arena);
    packing->pass = pass;
    packing->parse.findings = pass == PACKING_SPEAKS ? packing->findings : &quiet;
    enum status status = parse_text(&packing->parse, file, bytes, length);
    arena_rewind(&packing->quiet_arena, mark);
    return status;
}

enum status packing_close(struct packing *packing, void **pack, size_t *size)
{
    enum status status = STATUS_NO_MEMORY;
    *pack = NULL;
    if (packing->builder)
        status = library_builder_close(packing->builder, pack, size);
    parse_close(&packing->parse);
    arena_close(&packing->trees);
    arena_close(&packing->quiet_arena);
    return status;
}
