/* The bootstrap program: compiles declarations into a library pack.  quern-pack -o FILE SOURCES… */
#include <stdlib.h>
#include <fcntl.h>
#include <string.h>

#include "library/library.h"
#include "text/text.h"

struct packing {
    struct arena arena;
    struct findings findings;
    struct declaration *first, **end;
    struct text text;               /* of the file being read */
    uint32_t file;
    const char **paths;
};

static bool keep_declaration(void *context, struct node *node)
{
    struct packing *packing = context;
    struct declaration *declaration = arena_take(&packing->arena, sizeof *declaration);
    if (!declaration || !library_takes(packing->text, node))
        return false;
    *declaration = (struct declaration){ .node = node, .text = packing->text, .file = packing->file };
    *packing->end = declaration;
    packing->end = &declaration->next;
    return true;
}

static bool read_source(struct packing *packing, struct parse *parse, const char *path)
{
    struct buffer buffer;
    buffer_open(&buffer, allocator_standard());
    if (file_read(AT_FDCWD, path, LIMIT_FILE_BYTES, &buffer) != STATUS_OK) {
        fprintf(stderr, "quern-pack: cannot read %s\n", path);
        buffer_close(&buffer);
        return false;
    }
    char *kept = arena_copy(&packing->arena, buffer.bytes, buffer.length + 1);
    packing->text = (struct text){ kept, (uint32_t)buffer.length };
    bool good = kept && parse_text(parse, packing->file, kept, packing->text.length) == STATUS_OK;
    buffer_close(&buffer);
    return good;
}

/* Line by counting: this program is for those who write the library, and prints little. */
static void print_findings(struct packing *packing, const struct text *texts)
{
    struct finding **sorted = findings_sorted(&packing->findings);
    for (uint32_t i = 0; sorted && i < packing->findings.count; i++) {
        struct buffer words;
        unsigned line = 1;
        struct text text = texts[sorted[i]->place.file];
        buffer_open(&words, allocator_standard());
        for (uint32_t at = 0; at < sorted[i]->place.span.start; at++)
            line += text.bytes[at] == '\n';
        words_print(&words, &sorted[i]->words);
        fprintf(stderr, "%s:%u: %s: %s\n", packing->paths[sorted[i]->place.file], line,
                severity_name(sorted[i]->severity), words.bytes ? words.bytes : "");
        buffer_close(&words);
    }
}

static bool write_pack(const char *path, const void *pack, size_t size)
{
    struct output_file file;
    if (output_file_open(&file, allocator_standard(), path) != STATUS_OK)
        return false;
    fwrite(pack, 1, size, file.stream);
    return output_file_finish(&file) == STATUS_OK;
}

static int compile_and_write(struct packing *packing, const char *path)
{
    void *pack = NULL;
    size_t size = 0;
    enum status status = library_compile(allocator_standard(), packing->first, NULL, NULL, NULL, &packing->findings,
                                         &pack, &size);
    if (status == STATUS_OK && packing->findings.count == 0 && pack_verify(pack, size, NULL) != PACK_SOUND) {
        fprintf(stderr, "quern-pack: the pack does not verify: a defect\n");
        status = STATUS_BAD_PACK;
    }
    bool good = status == STATUS_OK && packing->findings.count == 0 && write_pack(path, pack, size);
    free(pack);
    return good ? 0 : 1;
}

int main(int count, char **arguments)
{
    if (count < 4 || strcmp(arguments[1], "-o") != 0) {
        fprintf(stderr, "usage: quern-pack -o FILE SOURCES...\n");
        return 2;
    }
    struct packing packing = { .paths = (const char **)arguments + 3 };
    struct parse parse;
    struct arena trees;
    struct text *texts = calloc((size_t)count, sizeof *texts);
    arena_open(&packing.arena, allocator_standard());
    arena_open(&trees, allocator_standard());
    findings_open(&packing.findings, &packing.arena);
    packing.end = &packing.first;
    parse_open(&parse, allocator_standard(), &trees, &packing.findings, keep_declaration, &packing);
    bool good = texts != NULL;
    for (int i = 3; good && i < count; i++) {
        packing.file = (uint32_t)(i - 3);
        good = read_source(&packing, &parse, arguments[i]);
        texts[packing.file] = packing.text;
    }
    int result = good ? compile_and_write(&packing, arguments[2]) : 2;
    if (good)
        print_findings(&packing, texts);
    parse_close(&parse);
    arena_close(&trees);
    arena_close(&packing.arena);
    free(texts);
    return result;
}
