/* The bootstrap program: compiles declarations into a library pack that builds on nothing.  quern-pack -o FILE SOURCES… */
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>

#include "library/packing.h"

static bool read_source(const char *path, struct buffer *buffer)
{
    if (file_read(AT_FDCWD, path, LIMIT_FILE_BYTES, buffer) == STATUS_OK)
        return true;
    fprintf(stderr, "quern-pack: cannot read %s\n", path);
    return false;
}

static bool read_sources(struct packing *packing, char **paths, int count, struct buffer *buffer)
{
    for (int i = 0; i < (int)PACKING_PASSES * count; i++) {
        if (!read_source(paths[i % count], buffer)
            || packing_read(packing, (uint32_t)(i % count), buffer->bytes, (uint32_t)buffer->length, (uint32_t)(i / count)) != STATUS_OK)
            return false;
    }
    return true;
}

/* Line by counting: this program is for those who write the library, and prints little. */
static void print_finding(const struct finding *finding, const char *path, struct buffer *buffer)
{
    struct buffer words;
    unsigned line = 1;
    buffer_open(&words, allocator_standard());
    if (read_source(path, buffer)) {
        for (uint32_t at = 0; at < finding->place.span.start; at++)
            line += buffer->bytes[at] == '\n';
    }
    words_print(&words, &finding->words);
    fprintf(stderr, "%s:%u: %s: %s\n", path, line, severity_name(finding->severity), words.bytes ? words.bytes : "");
    buffer_close(&words);
}

static bool write_pack(const char *path, const void *pack, size_t size)
{
    struct output_file file;
    if (pack_verify(pack, size, NULL) != PACK_SOUND) {
        fprintf(stderr, "quern-pack: the pack does not verify: a defect\n");
        return false;
    }
    if (output_file_open(&file, allocator_standard(), path) != STATUS_OK)
        return false;
    fwrite(pack, 1, size, file.stream);
    return output_file_finish(&file) == STATUS_OK;
}

int main(int count, char **arguments)
{
    struct packing packing;
    struct arena arena;
    struct findings findings;
    struct buffer buffer;
    void *pack = NULL;
    size_t size = 0;
    if (count < 4 || strcmp(arguments[1], "-o") != 0) {
        fprintf(stderr, "usage: quern-pack -o FILE SOURCES...\n");
        return 2;
    }
    arena_open(&arena, allocator_standard());
    findings_open(&findings, &arena);
    buffer_open(&buffer, allocator_standard());
    bool good = packing_open(&packing, allocator_standard(), NULL, NULL, NULL, &findings)
             && read_sources(&packing, arguments + 3, count - 3, &buffer);
    good = packing_close(&packing, &pack, &size) == STATUS_OK && good;
    struct finding **sorted = findings_sorted(&findings);
    for (uint32_t i = 0; sorted && i < findings.count; i++)
        print_finding(sorted[i], arguments[3 + sorted[i]->place.file], &buffer);
    good = good && findings.count == 0 && write_pack(arguments[2], pack, size);
    free(pack);
    buffer_close(&buffer);
    arena_close(&arena);
    return good ? 0 : 1;
}
