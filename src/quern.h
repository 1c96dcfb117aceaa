/* Quern as a library: all that an embedder, a language server, a fuzzer or a browser build needs.
 *
 * A session owns its memory, its options and the food library; nothing is global, and sessions may run side by
 * side in threads of their own. A call gives a status; the findings of the last check stay in the session until
 * the next one. Example:
 *
 *     struct quern_session *session = quern_open(NULL);
 *     if (session)
 *         status = quern_check_text(session, "soup.quern", text, strlen(text), QUERN_AS_JSON, my_sink, my_context);
 *     quern_close(session);
 */
#ifndef QUERN_H
#define QUERN_H

#include <stdbool.h>
#include <stddef.h>

struct quern_session;

/* Also the exit status of the program. */
enum quern_status {
    QUERN_OK = 0,           /* no finding of severity error */
    QUERN_FINDINGS = 1,     /* at least one */
    QUERN_FAILED = 2,       /* the work could not be done: see quern_failure */
    QUERN_DEFECT = 3,       /* a defect in Quern itself */
};

/* Not every call knows all of them: each says which it takes, and is QUERN_FAILED for another. */
enum quern_form { QUERN_AS_TEXT, QUERN_AS_JSON, QUERN_AS_CSV, QUERN_AS_HTML, QUERN_AS_MARKDOWN, QUERN_AS_JSONLD };

/* Takes bytes of an output; false when it cannot (a full disk), which ends the call with QUERN_FAILED. */
typedef bool quern_sink(void *context, const char *bytes, size_t length);

struct quern_options {
    void *(*resize)(void *context, void *block, size_t size);  /* like realloc, size 0 frees; NULL: the C library's */
    void *resize_context;
    const char *library_path;   /* a pack instead of the embedded library, or NULL */
    unsigned jobs;              /* threads; 0 and 1: the caller's only */
    bool strict;                /* warnings, doubts among them, count as errors */
    bool colour;                /* of findings for people */
    bool variation;             /* ranges hold how samples of foods vary, where their source says it */
    const char *today;          /* the day it is, as 2026-02-01; NULL: nobody says, and no packet is old */
    bool claims;                /* quern_check tells what each recipe could claim, too */
    bool lines;                 /* CSV of quern_report has a row for each line of a recipe, not for each nutrient */
    bool panel;                 /* reports as text, Markdown or pages are the panel that the rules print */
    bool dated;                 /* reports that are pages print the day of `today` */
    /* Of reports in a folder; `whole` is 0 where several kitchens are not all counted yet. False: stop. */
    bool (*progress)(void *context, unsigned long long done, unsigned long long whole);
    void *progress_context;
    bool follow_links;          /* paths that are named may lead out of their folders through links */
    const char *const *allowed; /* folders outside a kitchen that `use` may read, and their number */
    size_t allowed_count;
    double spoon_error;         /* share by which a spoon or cup may err, 0 to 0.5; what lies outside is cut off */
};

/* NULL when memory fails. A library that cannot be opened shows at the first check. `options` may be NULL. */
struct quern_session *quern_open(const struct quern_options *options);
void quern_close(struct quern_session *session);

/* Checks files, folders of kitchens, or standard input ("-"). */
enum quern_status quern_check(struct quern_session *session, const char *const *paths, size_t count,
                              enum quern_form form, quern_sink *sink, void *context);

/* The same, and reports every recipe, or those called `recipe` when it is not NULL. */
enum quern_status quern_report(struct quern_session *session, const char *const *paths, size_t count,
                               const char *recipe, enum quern_form form, quern_sink *sink, void *context);

/* Reports each recipe into a file of its own in `folder`, which is made when it is not there; pages and Markdown have an index
 * beside them. The sink takes, as
 * text, the findings that stand in no recipe and how many files were written. */
enum quern_status quern_report_to_folder(struct quern_session *session, const char *const *paths, size_t count,
                                         const char *recipe, enum quern_form form, const char *folder,
                                         quern_sink *sink, void *context);

/* Compiles what text files declare into a library pack at `path`, which a kitchen takes in with `use "x.pack"`. Nothing
 * is written when a finding of severity error speaks of them. */
enum quern_status quern_pack(struct quern_session *session, const char *const *paths, size_t count, const char *path,
                             quern_sink *sink, void *context);

/* Checks one text under a name, as a kitchen of one. The text is copied. */
enum quern_status quern_check_text(struct quern_session *session, const char *name, const char *text, size_t length,
                                   enum quern_form form, quern_sink *sink, void *context);

/* What is traced. */
struct quern_trace {
    const char *recipe;         /* the name of a recipe or a day */
    const char *nutrient;       /* "potassium", "sodium from cook-added", "weight"; NULL: the traced nutrient, sodium */
    const char *kitchen;        /* a path; NULL: the folder that the program runs in */
    bool record;                /* the record of 21 CFR 101.11(c)(3)(i), of all nutrients, instead */
    enum quern_form form;       /* text, JSON, Markdown or HTML; a record has no JSON */
};

/* Writes the whole sum behind a figure, from each line of the recipe to what a serving holds. QUERN_FINDINGS when an error
 * speaks of the recipe, QUERN_FAILED when there is none of the name, or no such nutrient. */
enum quern_status quern_trace(struct quern_session *session, const struct quern_trace *wanted, quern_sink *sink,
                              void *context);

/* What is looked up in the library. All but the words or the group may be left 0. */
struct quern_lookup {
    const char *words;          /* of a food's name, in any order; NULL: every food of the group */
    const char *group;          /* only foods of this group and of those within it */
    const char *lowest, *highest;   /* a nutrient to sort by, per 100 g; one of the two */
    size_t limit;               /* how many foods are listed; 0: 20 */
    const char *kitchen;        /* a path: which recipes there use the food; its own foods are found, too */
    enum quern_form form;
};

/* Shows the card of the food with this name, or the kinds that a plain word stands for. Where there are none, or where
 * a group, an order, a limit or another form than text is asked for, it lists foods: those with all of the words,
 * then those whose names lie near. JSON holds the card as well. QUERN_FINDINGS when no food has all of the words,
 * QUERN_FAILED when there are no words, or no such group or nutrient. */
enum quern_status quern_lookup(struct quern_session *session, const struct quern_lookup *wanted, quern_sink *sink,
                               void *context);

/* What to import; NULL where the default will do. */
struct quern_import {
    const char *path;           /* a table, or the folder of the tables */
    const char *out;            /* the folder to write to, made when it is not there; or a pack, FILE.pack */
    const char *form;           /* "release", "central" or "table"; NULL: found out */
    const char *map;            /* a mapping file: docs/import.md */
    const char *source;         /* what every food cites before its number */
    const char *prefix;         /* of the written files */
    bool skip_bad;              /* leave wrong rows out */
    bool (*progress)(void *context, unsigned long long done, unsigned long long whole);  /* bytes; false: stop */
    void *progress_context;
};

/* Turns tables into files of foods; the sink takes what was wrong and what was written. QUERN_FINDINGS: nothing was. */
enum quern_status quern_import(struct quern_session *session, const struct quern_import *what, quern_sink *sink,
                               void *context);

/* What is compared; NULL where the default will do. */
struct quern_compare {
    const char *first, *second; /* names of recipes, days, labels or foods; second NULL: the first as it is now */
    const char *since;          /* a revision of git: the first is what it was then */
    const char *kitchen;        /* the path where the names are looked for; NULL: here, or only the library where nothing is */
    const char *nutrient;       /* whose lines are told; NULL: sodium */
    enum quern_form form;       /* text, JSON, Markdown, HTML */
};

/* Tells how much more the second holds than the first, per serving and per 100 g, and where that comes from.
 * QUERN_FINDINGS when nobody knows all that one of them holds; QUERN_FAILED when one of the names is not there, or twice, or
 * the revision cannot be had. */
enum quern_status quern_compare(struct quern_session *session, const struct quern_compare *wanted, quern_sink *sink, void *context);

/* What is ranked; NULL and 0 where the default will do. */
struct quern_rank {
    const char *const *paths;
    size_t count;
    const char *day;            /* only this day; NULL: all recipes of the paths */
    const char *nutrient;       /* NULL: sodium */
    size_t limit;               /* at most so many foods and lines; 0: 20 */
    enum quern_form form;       /* text, JSON, Markdown, HTML */
};

/* Tells which foods and lines bring most of a nutrient, with their shares. QUERN_FINDINGS when there are lines of which nobody
 * knows it; QUERN_FAILED when there is nothing to rank. */
enum quern_status quern_rank(struct quern_session *session, const struct quern_rank *wanted, quern_sink *sink, void *context);

/* What a stage left: "tokens", "tree", "names", "amounts" or "limits", of one file. */
enum quern_status quern_show(struct quern_session *session, const char *stage, const char *path, quern_sink *sink,
                             void *context);

/* A document to hand out or to cook from; what is not set is left out. */
struct quern_handout {
    const char *recipe;         /* only those called so, or NULL */
    const char *folder;         /* each into a file of its own there, or NULL */
    bool for_patients;          /* in plain words and large print, what matters first */
    double servings;            /* the recipe is scaled to so many; 0: as written */
    enum quern_form form;       /* text, Markdown or HTML */
};

/* Hands out each recipe, in place of its report; days only where they are asked for by name or for patients, weeks never. */
enum quern_status quern_handout(struct quern_session *session, const char *const *paths, size_t count, const struct quern_handout *wanted,
                                quern_sink *sink, void *context);

/* What to buy; what is not set is left out. */
struct quern_shopping {
    const char *const *names;   /* of recipes, days and weeks; none: every recipe of the kitchen, once */
    size_t count;
    const char *kitchen;        /* a path; NULL: here */
    double servings;            /* every recipe is cooked for so many; 0: as written */
    enum quern_form form;       /* text, JSON, Markdown or HTML */
};

/* Sums up what to buy for recipes, days and weeks of one kitchen. */
enum quern_status quern_shopping(struct quern_session *session, const struct quern_shopping *wanted, quern_sink *sink, void *context);

/* The sheet of salts: what a spoonful of each food that people salt with holds. Text, JSON, Markdown or HTML. */
enum quern_status quern_salts(struct quern_session *session, enum quern_form form, quern_sink *sink, void *context);

/* Why the last call gave QUERN_FAILED, in words; "" when it did not. */
const char *quern_failure(const struct quern_session *session);

/* How many findings of each severity the last check made. */
void quern_counts(const struct quern_session *session, size_t *errors, size_t *warnings, size_t *notes);

const char *quern_version(void);

#endif
