/* From declarations to the bytes of a pack. */
#include <string.h>

#include "library/build.h"
#include "library/pack.h"

typedef void declaration_reader(struct builder *builder, const struct node *node);

struct kind {
    enum node_kind node;
    const char *word;               /* first word of knowledge without a keyword of its own */
    declaration_reader *read;
    uint32_t pass;                  /* what others name is read before them */
    bool block;                     /* without its block it is no declaration but some line: `blend until smooth` */
};

/* In the order in which they are read where all declarations are at hand. */
static const struct kind kinds[] = {
    { NODE_UNIT, NULL, read_unit, 0, false },
    { NODE_KNOWLEDGE, "nutrient", read_nutrient, 1, false },
    { NODE_GROUP, NULL, read_group, 1, false },
    { NODE_KNOWLEDGE, "element", read_element, 2, true },
    { NODE_FOOD, NULL, read_food, 2, false },
    { NODE_KNOWLEDGE, "substance", read_substance, 2, true },
    { NODE_KNOWLEDGE, "craft", read_craft, 2, true },
    { NODE_LABEL, NULL, read_label, 2, false },
    { NODE_KNOWLEDGE, "shelf", read_shelf, 2, false },
    { NODE_KNOWLEDGE, "filler", read_filler, 2, false },
    { NODE_KNOWLEDGE, "spelling", read_spelling, 2, false },
    { NODE_TREATMENT, NULL, read_treatment, 2, false },
    { NODE_KNOWLEDGE, "doubling", read_doubling, 2, false },
    { NODE_KNOWLEDGE, "person", read_person, 2, true },
    { NODE_KNOWLEDGE, "rules", read_rules, 3, false },
    { NODE_KNOWLEDGE, "intake", read_intake, 3, true },
    { NODE_KNOWLEDGE, "compound", read_compound, 3, true },
    { NODE_KNOWLEDGE, "blend", read_blend, 4, true },
};

static bool is_of_kind(struct text text, const struct node *node, const struct kind *kind)
{
    if (node->kind != kind->node)
        return false;
    return !kind->word || (node->items.first && text_is(span_text(text, node->items.first->span), kind->word)
                           && (node->has_body || (!kind->block && node->items.first->next)));
}

bool library_takes(struct text text, const struct node *node)
{
    for (uint32_t i = 0; i < COUNT_OF(kinds); i++) {
        if (is_of_kind(text, node, &kinds[i]))
            return true;
    }
    return false;
}

static void read_all(struct builder *builder, const struct declaration *declarations)
{
    for (uint32_t i = 0; i < COUNT_OF(kinds); i++) {
        for (const struct declaration *at = declarations; at; at = at->next) {
            if (!is_of_kind(at->text, at->node, &kinds[i]))
                continue;
            builder->declaration = at;
            build_check_repeated(builder, at->node);
            kinds[i].read(builder, at->node);
        }
    }
}

void library_builder_read(struct builder *builder, const struct declaration *declaration, uint32_t pass)
{
    for (uint32_t i = 0; i < COUNT_OF(kinds); i++) {
        if (!is_of_kind(declaration->text, declaration->node, &kinds[i]))
            continue;
        builder->passes_needed |= 1u << kinds[i].pass;
        if (kinds[i].pass != pass)
            continue;
        builder->declaration = declaration;
        build_check_repeated(builder, declaration->node);
        kinds[i].read(builder, declaration->node);
    }
}

bool library_builder_needs(const struct builder *builder, uint32_t pass)
{
    return builder->passes_needed >> pass & 1;
}

static void fill_slots(struct builder *builder)
{
    uint32_t capacity = 4;
    while (capacity < builder->names_count * 2)
        capacity *= 2;
    for (uint32_t i = 0; i < capacity; i++) {
        uint32_t slot = BUILD_ADD(builder, slots);
        if (slot == NONE_INDEX)
            return;
        builder->slots[slot].name = NONE_INDEX;
    }
    for (uint32_t i = 0; i < builder->names_count; i++) {
        struct text key = build_string(builder, builder->names[i].key);
        uint64_t hash = hash_mix(hash_bytes(key.bytes, key.length), builder->names[i].space + 1);
        uint32_t at = (uint32_t)hash & (capacity - 1);
        while (builder->slots[at].name != NONE_INDEX)
            at = (at + 1) & (capacity - 1);
        builder->slots[at] = (struct name_slot){ .hash = hash, .name = i };
    }
}

static size_t place_sections(struct builder *builder, struct pack_header *header)
{
    size_t offset = (sizeof *header + 7) & ~(size_t)7;
    const uint32_t counts[] = {
#define SECTION(field, type) builder->field##_count,
#include "library/sections.def"
#undef SECTION
    };
    for (uint32_t i = 0; i < PACK_SECTIONS; i++) {
        header->sections[i] = (struct pack_section){ (uint32_t)offset, counts[i] };
        offset = (offset + counts[i] * pack_section_size(i) + 7) & ~(size_t)7;
    }
    return offset;
}

static void *write_pack(struct builder *builder, size_t *size)
{
    struct pack_header header = { .version = pack_version(), .byte_order = PACK_BYTE_ORDER,
                                  .base = builder->base ? builder->base->checksum : 0 };
    *size = place_sections(builder, &header);
    unsigned char *pack = builder->allocator.resize(builder->allocator.context, NULL, *size);
    if (!pack)
        return NULL;
    memset(pack, 0, *size);
    memcpy(header.magic, PACK_MAGIC, sizeof header.magic);
    header.size = *size;
    const void *const arrays[] = {
#define SECTION(field, type) builder->field,
#include "library/sections.def"
#undef SECTION
    };
    for (uint32_t i = 0; i < PACK_SECTIONS; i++) {
        if (header.sections[i].count)
            memcpy(pack + header.sections[i].offset, arrays[i], header.sections[i].count * pack_section_size(i));
    }
    memcpy(pack, &header, sizeof header);
    pack_seal(pack, builder->base);
    return pack;
}

static void close_builder(struct builder *builder)
{
    struct allocator *allocator = &builder->allocator;
#define SECTION(field, type) allocator->resize(allocator->context, builder->field, 0);
#include "library/sections.def"
#undef SECTION
    allocator->resize(allocator->context, builder->places, 0);
    table_close(&builder->table);
}

static enum status finish(struct builder *builder, void **pack, size_t *size)
{
    fill_slots(builder);
    *pack = builder->failed || builder->findings->failed ? NULL : write_pack(builder, size);
    close_builder(builder);
    return *pack ? STATUS_OK : STATUS_NO_MEMORY;
}

static void open_builder(struct builder *builder, struct allocator allocator, const struct library *base,
                         const struct rules *rules, const struct library *rules_owner, struct findings *findings)
{
    *builder = (struct builder){ .allocator = allocator, .base = base, .label_rules = rules, .label_rules_owner = rules_owner,
                                 .findings = findings };
    table_open(&builder->table, allocator);
}

bool library_takes_rules(const struct declaration *declaration)
{
    for (uint32_t i = 0; i < COUNT_OF(kinds); i++) {
        if (kinds[i].read == read_rules)
            return is_of_kind(declaration->text, declaration->node, &kinds[i]);
    }
    return false;
}

enum status library_compile(struct allocator allocator, const struct declaration *declarations,
                            const struct library *base, const struct rules *rules, const struct library *rules_owner,
                            struct findings *findings, void **pack, size_t *size)
{
    struct builder builder;
    open_builder(&builder, allocator, base, rules, rules_owner, findings);
    read_all(&builder, declarations);
    return finish(&builder, pack, size);
}

struct builder *library_builder_open(struct allocator allocator, const struct library *base, const struct rules *rules,
                                     const struct library *rules_owner, struct findings *findings)
{
    struct builder *builder = allocator.resize(allocator.context, NULL, sizeof *builder);
    if (builder)
        open_builder(builder, allocator, base, rules, rules_owner, findings);
    return builder;
}

enum status library_builder_close(struct builder *builder, void **pack, size_t *size)
{
    struct allocator allocator = builder->allocator;
    enum status status = finish(builder, pack, size);
    allocator.resize(allocator.context, builder, 0);
    return status;
}
