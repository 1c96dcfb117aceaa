/* The list of findings. All of it lives in one arena, texts included, since the source they come from is read
 * into a buffer that the next file takes over. */
#include <stdlib.h>
#include <string.h>

#include "finding/finding.h"

void findings_open(struct findings *findings, struct arena *arena)
{
    *findings = (struct findings){ .arena = arena };
}

static struct text keep_text(struct findings *findings, struct text text)
{
    text.bytes = arena_copy(findings->arena, text.bytes, text.length);
    if (!text.bytes) {
        findings->failed = true;
        text.length = 0;
    }
    return text;
}

#define GAP_BYTES 160

/* Nobody reads a name of a thousand words: what goes into a sentence is cut, with dots. */
static struct text keep_gap(struct findings *findings, struct text text)
{
    char cut[GAP_BYTES + 4];
    uint32_t length = GAP_BYTES;
    if (text.length <= GAP_BYTES)
        return keep_text(findings, text);
    while (length > 0 && (text.bytes[length] & 0xc0) == 0x80)
        length--;
    memcpy(cut, text.bytes, length);
    memcpy(cut + length, "...", 3);
    return keep_text(findings, (struct text){ cut, length + 3 });
}

static struct words keep_words(struct findings *findings, enum words_code code, const struct text *gaps,
                               uint32_t gap_count)
{
    struct words words = { .code = code };
    for (uint32_t i = 0; i < gap_count && i < WORDS_ARGUMENTS; i++)
        words.arguments[i] = keep_gap(findings, gaps[i]);
    return words;
}

static void *take(struct findings *findings, size_t size)
{
    void *taken = arena_take(findings->arena, size);
    if (!taken)
        findings->failed = true;
    return taken;
}

struct finding *finding_add(struct findings *findings, enum words_code code, struct place place,
                            const struct text *gaps, uint32_t gap_count)
{
    struct finding *finding = take(findings, sizeof *finding);
    if (!finding)
        return NULL;
    finding->place = place;
    finding->severity = catalogue_severity(code);
    finding->words = keep_words(findings, code, gaps, gap_count);
    if (findings->last)
        findings->last->next = finding;
    else
        findings->first = finding;
    findings->last = finding;
    findings->count++;
    return finding;
}

void finding_label(struct findings *findings, struct finding *finding, struct place place, enum words_code code,
                   const struct text *gaps, uint32_t gap_count)
{
    struct finding_label *label = finding ? take(findings, sizeof *label) : NULL;
    if (!label)
        return;
    label->place = place;
    label->words = keep_words(findings, code, gaps, gap_count);
    struct finding_label **end = &finding->labels;
    while (*end)
        end = &(*end)->next;
    *end = label;
}

void finding_note(struct findings *findings, struct finding *finding, enum words_code code,
                  const struct text *gaps, uint32_t gap_count)
{
    struct finding_note *note = finding ? take(findings, sizeof *note) : NULL;
    if (!note)
        return;
    note->words = keep_words(findings, code, gaps, gap_count);
    struct finding_note **end = &finding->notes;
    while (*end)
        end = &(*end)->next;
    *end = note;
}

void finding_fix(struct findings *findings, struct finding *finding, struct place place, struct text replacement,
                 enum words_code code, const struct text *gaps, uint32_t gap_count)
{
    struct finding_fix *fix = finding ? take(findings, sizeof *fix) : NULL;
    if (!fix)
        return;
    fix->place = place;
    fix->replacement = keep_text(findings, replacement);
    fix->title = keep_words(findings, code, gaps, gap_count);
    struct finding_fix **end = &finding->fixes;
    while (*end)
        end = &(*end)->next;
    *end = fix;
}

void finding_former_word(struct findings *findings, struct place place, struct text former, const char *now)
{
    struct finding *finding = finding_add(findings, FINDING_FORMER_WORD, place, GAPS(former, text_of(now)));
    finding_fix(findings, finding, place, text_of(now), WORDS_FIX_WRITE, GAPS(text_of(now)));
}

void finding_wish(struct findings *findings, struct finding *finding, struct finding_wish wish)
{
    struct finding_wish *kept = finding ? take(findings, sizeof *kept) : NULL;
    if (!kept)
        return;
    *kept = wish;
    kept->name = keep_text(findings, wish.name);
    finding->wish = kept;
}

void findings_keep(struct findings *findings, struct finding *before, finding_keeper *is_kept, void *context)
{
    struct finding **link = before ? &before->next : &findings->first, *last = before;
    while (*link) {
        if (is_kept(context, *link)) {
            last = *link;
            link = &last->next;
        } else {
            *link = (*link)->next;
            findings->count--;
        }
    }
    findings->last = last;
}

static int compare_places(const void *left, const void *right)
{
    const struct finding *a = *(struct finding *const *)left, *b = *(struct finding *const *)right;
    if (a->place.file != b->place.file)
        return a->place.file < b->place.file ? -1 : 1;
    if (a->place.span.start != b->place.span.start)
        return a->place.span.start < b->place.span.start ? -1 : 1;
    if (a->words.code != b->words.code)
        return a->words.code < b->words.code ? -1 : 1;
    struct text x = a->words.arguments[0], y = b->words.arguments[0];
    uint32_t shorter = x.length < y.length ? x.length : y.length;
    return shorter ? memcmp(x.bytes, y.bytes, shorter) : 0;
}

struct finding **findings_sorted(struct findings *findings)
{
    struct finding **sorted = take(findings, (findings->count + 1) * sizeof *sorted);
    if (!sorted)
        return NULL;
    uint32_t count = 0;
    for (struct finding *finding = findings->first; finding; finding = finding->next)
        sorted[count++] = finding;
    qsort(sorted, count, sizeof *sorted, compare_places);
    return sorted;
}
