/* What is wrong is told at once, in the order of the rows; of many rows the first are shown and the rest is counted. */
#include <string.h>

#include "import/parts.h"

void trouble_say(struct import *import, struct buffer *words)
{
    bool good = !words->failed && import->request->say(import->request->say_context, words->bytes, words->length);
    words->length = 0;
    if (words->failed)
        trouble_memory(import);
    else if (!good)
        trouble_stop(import, STATUS_IO, NULL, "the output cannot be written");
}

bool trouble_stop(struct import *import, enum status status, const char *path, const char *why)
{
    if (import->status != STATUS_OK)
        return false;
    import->status = status;
    int length = snprintf(import->outcome->failure, sizeof import->outcome->failure, "%.300s%s%s", path ? path : "",
                          path ? ": " : "", why);
    (void)length;
    return false;
}

bool trouble_memory(struct import *import)
{
    return trouble_stop(import, STATUS_NO_MEMORY, NULL, "out of memory");
}

/* The sentence behind a place, and its way out; both with their control characters made visible. */
static void say_finding(struct import *import, const char *place, enum words_code code, const struct text *gaps,
                        uint32_t count)
{
    if (atomic_load(&import->memory.failed)) {      /* what seems wrong may only have found no room */
        trouble_memory(import);
        return;
    }
    struct buffer words, visible;
    struct finding finding = { .words = { .code = code } };
    buffer_open(&words, import->allocator);
    buffer_open(&visible, import->allocator);
    for (uint32_t i = 0; i < count && i < WORDS_ARGUMENTS; i++)
        finding.words.arguments[i] = gaps[i];
    buffer_print(&words, "%s: %s: ", place, severity_name(catalogue_severity(code)));
    words_print(&words, &finding.words);
    buffer_print(&words, " [%s]", catalogue_code(code));
    buffer_add_visible(&visible, (struct text){ words.bytes, (uint32_t)words.length });
    words.length = 0;
    if (finding_help(&words, &finding)) {
        buffer_add_string(&visible, "\n  try: ");
        buffer_add_visible(&visible, (struct text){ words.bytes, (uint32_t)words.length });
    }
    buffer_add_string(&visible, "\n");
    visible.failed = visible.failed || words.failed;
    trouble_say(import, &visible);
    buffer_close(&words);
    buffer_close(&visible);
}

void trouble_map(struct import *import, struct span span, enum words_code code, const struct text *gaps, uint32_t count)
{
    char place[400];
    uint32_t line = 1, column = 1;
    import->outcome->wrong++;
    import->map_is_wrong = true;
    if (import->lines_made)
        line_index_find(&import->lines, import->mapping.text, span.start, &line, &column);
    int length = snprintf(place, sizeof place, "%.360s:%u:%u", import->mapping.path, (unsigned)line, (unsigned)column);
    if (length > 0 && import->outcome->wrong <= LIMIT_IMPORT_SHOWN)
        say_finding(import, place, code, gaps, count);
}

void trouble_row(struct import *import, enum role role, uint64_t row, enum words_code code, const struct text *gaps,
                 uint32_t count)
{
    char place[400];
    struct text name = import->file_names[role];
    import->outcome->wrong++;
    if (import->outcome->wrong > LIMIT_IMPORT_SHOWN)
        return;
    int length = snprintf(place, sizeof place, "%.*s: row %llu", name.length < 300 ? (int)name.length : 300,
                          name.length ? name.bytes : "", (unsigned long long)row);
    if (length > 0)
        say_finding(import, place, code, gaps, count);
}
