/* finding: what can be wrong, as data: code, severity, place, arguments, labels, notes, fixes.
 *
 * A finding is added to a list, which lives in an arena, and the work goes on with a harmless value. Words are
 * made here and nowhere else (words.c), from catalogue.def, whichever output shows them. */
#ifndef QUERN_FINDING_H
#define QUERN_FINDING_H

#include "base/base.h"

/* Bytes `start` up to, not including, `end` of a file. */
struct span {
    uint32_t start, end;
};

/* Where: `file` is a number that the owner of the list gives out; FILE_NONE where there is no file. */
struct place {
    uint32_t file;
    struct span span;
};

#define FILE_NONE UINT32_MAX

enum severity { SEVERITY_NOTE, SEVERITY_WARNING, SEVERITY_ERROR };

enum words_code {
#define FINDING(symbol, code, severity, message, help) FINDING_##symbol,
#define WORDING(symbol, message) WORDS_##symbol,
#define ADVICE(symbol, message) WORDS_##symbol,
#include "finding/catalogue.def"
#undef FINDING
#undef WORDING
#undef ADVICE
    WORDS_COUNT
};

#define WORDS_ARGUMENTS 5

/* A sentence of the catalogue and what goes into its gaps. */
struct words {
    enum words_code code;
    struct text arguments[WORDS_ARGUMENTS];
};

/* A further place that belongs to a finding, with a few words of its own. */
struct finding_label {
    struct place place;
    struct words words;
    struct finding_label *next;
};

struct finding_note {
    struct words words;
    struct finding_note *next;
};

/* A change of the text that would settle the finding: the bytes at `place` become `replacement`. */
struct finding_fix {
    struct words title;
    struct place place;
    struct text replacement;
    struct finding_fix *next;
};

/* A name that nobody has, for which near ones are to be looked for: each search looks at all names, so that somebody who sees all
 * findings does it, for the first of them only. */
struct finding_wish {
    struct text name;
    unsigned spaces;                /* of names, a bit each: the library's enum name_space */
    bool canned;                    /* what is dry or raw is no near name */
};

struct finding {
    enum severity severity;
    struct place place;
    struct words words;
    struct finding_label *labels;
    struct finding_note *notes;
    struct finding_fix *fixes;
    struct finding_wish *wish;      /* or NULL */
    struct finding *next;
};

struct findings {
    struct arena *arena;
    struct finding *first, *last;
    uint32_t count;
    bool failed;                    /* memory failed: the list is not whole */
};

/* Arguments for the gaps: GAPS(text, text, …), or NO_GAPS. */
#define GAPS(...) (const struct text[]){ __VA_ARGS__ }, (uint32_t)COUNT_OF(((const struct text[]){ __VA_ARGS__ }))
#define NO_GAPS NULL, 0

void findings_open(struct findings *findings, struct arena *arena);

/* Adds a finding; texts are copied. NULL when memory failed (and then findings.failed is set); the functions
 * below take that NULL and do nothing. */
struct finding *finding_add(struct findings *findings, enum words_code code, struct place place,
                            const struct text *gaps, uint32_t gap_count);
void finding_label(struct findings *findings, struct finding *finding, struct place place, enum words_code code,
                   const struct text *gaps, uint32_t gap_count);
void finding_note(struct findings *findings, struct finding *finding, enum words_code code,
                  const struct text *gaps, uint32_t gap_count);
void finding_fix(struct findings *findings, struct finding *finding, struct place place, struct text replacement,
                 enum words_code code, const struct text *gaps, uint32_t gap_count);

/* A word of the language that has another name now: the finding names it, and its fix writes it. */
void finding_former_word(struct findings *findings, struct place place, struct text former, const char *now);

/* Notes that names near this one are wanted. The text is copied. */
void finding_wish(struct findings *findings, struct finding *finding, struct finding_wish wish);

/* Whether a finding stays. */
typedef bool finding_keeper(void *context, struct finding *finding);

/* Takes away what was added behind `before` (NULL: of all) and is not kept. */
void findings_keep(struct findings *findings, struct finding *before, finding_keeper *is_kept, void *context);

/* The findings in order of place, as an array in the list's arena; NULL when memory failed. */
struct finding **findings_sorted(struct findings *findings);

/* ---- words.c */

/* The code as users write it: `unknown-food`. */
const char *finding_code(const struct finding *finding);
const char *severity_name(enum severity severity);
void words_print(struct buffer *buffer, const struct words *words);

/* Whether a note says what to do (an ADVICE of the catalogue), not why. */
bool words_advise(const struct words *words);

/* The way out that the catalogue knows for this code, or NULL. */
bool finding_help(struct buffer *buffer, const struct finding *finding);

/* For a list of all codes: symbol by number, NULL past the end or for wordings that are no findings. */
const char *catalogue_code(uint32_t number);
const char *catalogue_message(uint32_t number);
const char *catalogue_help(uint32_t number);

/* What a code means, at length; NULL where its sentence says it all. */
const char *catalogue_meaning(const char *code);
enum severity catalogue_severity(uint32_t number);

#endif
