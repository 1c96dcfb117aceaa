/* output: words and numbers for people and programs. Every form of output is one file here, fed with the same
 * findings, sums and verdicts; no form adds facts of its own. Rounding for display is done by the rule pack. */
#ifndef QUERN_OUTPUT_H
#define QUERN_OUTPUT_H

#include "judge/judge.h"
#include "quern.h"

/* What every JSON document says of itself as `schema`: the number in the names of docs/schema. */
#define JSON_VERSION 2

/* ---- writer.c: bytes on their way to a sink */

struct writer {
    quern_sink *sink;
    void *context;
    struct buffer buffer;
    bool failed;                    /* the sink took no more */
};

/* Opens a writer on a sink; `writer_flush` tells whether all has gone out, `writer_close` flushes, too. */
void writer_open(struct writer *writer, struct allocator allocator, quern_sink *sink, void *context);
void writer_print(struct writer *writer, const char *format, ...) QUERN_PRINTF(2, 3);
void writer_add(struct writer *writer, struct text text);
void writer_json(struct writer *writer, const char *json);     /* what cJSON printed, with its strings made printable */
void writer_visible_lines(struct writer *writer, struct text text);     /* the same, but line ends and tabs stay */
void writer_visible(struct writer *writer, struct text text);   /* control characters made visible */

/* Notes that a part of the output could not be made: the whole then fails. */
void writer_needs(struct writer *writer, bool made);

/* Columns that the text takes on a terminal. */
uint32_t text_columns(struct text text);

/* The text in exactly so many columns: filled with blanks, or cut with dots. */
void writer_cut(struct writer *writer, struct text text, uint32_t columns);

/* Words wrapped at 78 columns behind two blanks. */
void writer_wrapped(struct writer *writer, struct text text);

bool writer_flush(struct writer *writer);
void writer_close(struct writer *writer);

/* ---- source.c: files with findings are read again to show their lines; one is kept at a time */

struct sources {
    struct kitchen *kitchen;        /* a file that can be read no more is noted in it */
    struct buffer *buffer;          /* the first pass is over: its buffer is used again */
    struct line_index lines;
    uint32_t file;                  /* the one that is loaded, or FILE_NONE */
    struct text text;
    struct text given;              /* the text of a kitchen that was given as text, not as a file */
    bool failed;
};

/* Nothing is loaded yet. */
void sources_open(struct sources *sources, struct kitchen *kitchen, struct text given);
void sources_close(struct sources *sources);

/* Loads a file; false when it can no longer be read. Then lines are unknown, and the work that asked for them is not done. */
bool sources_load(struct sources *sources, uint32_t file);
const char *sources_path(const struct sources *sources, uint32_t file);

struct position {
    uint32_t line, column, end_line, end_column;
};
struct position sources_position(struct sources *sources, struct place place);

/* ---- the forms */

struct showing {
    const struct kitchen *kitchen;
    struct writer *writer;
    struct sources sources;
    const char *day;                /* that is printed, or NULL */
    bool strict, colour;
    bool json_failed;               /* memory failed while JSON was made: it is not printed */
};

/* What there is to say of one recipe or day; or of a week, with room to add up its days once more. */
struct report {
    struct sums *sums;
    const struct verdicts *verdicts;
    struct finding *const *findings;    /* those inside its block */
    uint32_t findings_count;
    const struct week_at *week;         /* NULL for a recipe or day */
    const struct week_sum *week_sum;
};

/* The severity as it counts: under --strict a warning is an error. */
enum severity shown_severity(const struct showing *showing, const struct finding *finding);

/* people.c */
void people_finding(struct showing *showing, const struct finding *finding);
void people_excerpt(struct showing *showing, struct place place);   /* the written line, with the place underlined */
void people_summary(struct writer *writer, size_t errors, size_t warnings, size_t notes);

/* json.c: one recipe or finding at a time, so that memory does not grow with the kitchen */
void json_finding(struct showing *showing, struct writer *writer, const struct finding *finding);
void json_recipe(struct showing *showing, const struct report *report);

/* jsonld.c: a recipe as linked data, one of a graph that has a head and a tail */
void jsonld_head(struct writer *writer);
void jsonld_recipe(struct showing *showing, const struct report *report);
void jsonld_tail(struct writer *writer);

/* What the recipe could claim by the rules in force, and what stands in the way: report_claims.c, json_claims.c. */
void text_could_claim(struct showing *showing, struct sums *sums);
void json_could_claim(struct showing *showing, struct writer *writer, const struct sums *sums);

/* json_days.c: the same of a day, and of a week, whose days are added up in `sums` */
void json_day(struct showing *showing, const struct report *report);
void json_week(struct showing *showing, struct week_at at, const struct week_sum *week);

/* report.c: the report that people hand out, of a recipe or a day, as blocks of a sheet that was begun */
struct sheet;
void report_tell(struct showing *showing, struct sheet *sheet, const struct report *report);

/* report_findings.c: findings that stand in no report */
void report_tell_findings(struct showing *showing, struct sheet *sheet, struct finding *const *findings, uint32_t count);

/* report_weeks.c: a week's; its days are added up once more, in the sums of the report. STATUS_OK or STATUS_NO_MEMORY. */
enum status report_tell_week(struct showing *showing, struct sheet *sheet, const struct report *report);

/* How many servings of its label, or in a day of its recipe, the line is, per serving or a day; false where it has none.
 * `servings`: those of what the line stands in. */
bool line_servings(const struct sums *sums, const struct line_amount *amount, struct range servings, struct range *eaten);

/* ---- tell.c: what is told of each kitchen, and how */

struct telling;

/* Tells what there is to say of a kitchen that was judged. A failure is noted with telling_fail. */
typedef enum status telling_kitchen_call(struct telling *telling, struct kitchen *kitchen);

/* Tells one recipe, day or week in place of the form's own report, as a document of its own on a sheet that is open. */
struct sheet;
typedef enum status telling_report_call(struct telling *telling, struct showing *showing, struct sheet *sheet, const struct report *report);

/* index.c: what an index of the folder tells of each report. Texts live in the arena, since kitchens go. */
struct index_entry;
struct report_index {
    struct arena arena;
    struct index_entry *entries;
    uint32_t count, capacity;
    struct text nutrients[2];           /* the traced one, and the one that is compared with it; no bytes: none */
    struct text *cautions;              /* of all reports, each once */
    uint32_t caution_count, caution_capacity;
};

struct telling {
    struct allocator allocator;
    const struct watched_memory *memory;    /* of that allocator */
    enum quern_form form;
    bool report, strict, colour, claims;    /* claims: what each recipe could claim is told, too */
    bool lines;                     /* CSV has a row for each line, not for each nutrient */
    const char *only;               /* name of the one recipe that is wanted, or NULL */
    const char *folder;             /* reports go into files of their own here, or NULL */
    bool folder_made;               /* … and it was not there before */
    const char *stage;              /* only show what this stage left, or NULL */
    telling_kitchen_call *kitchen;  /* what is told of each kitchen: telling_kitchen, or what a command has in its place */
    telling_report_call *each;      /* what is told of each recipe, day and week that is wanted; NULL: its report. Of weeks
                                     * only one that is named is wanted then */
    bool large, skips_days;         /* it is printed large; of days only one that is named is wanted */
    void *task;                     /* what that command is about, or NULL */
    struct text given;              /* text that was handed over, or no bytes */
    struct writer writer;
    struct sheet *sheet;            /* of a document that holds several reports, or NULL: each is a document of its own */
    uint32_t kitchens;              /* that the call is about */
    struct buffer all_findings;     /* JSON of all findings, which stands behind the recipes */
    struct buffer all_days, all_weeks;      /* the same of days and weeks, which stand between */
    struct buffer all_claims;       /* and of what recipes could claim */
    bool first_recipe, first_day, first_week, first_finding, first_claims, found_recipe;
    struct table names_taken;       /* names of files in the folder, with the last number behind each */
    size_t files_written, files_expected;
    struct report_index index;
    const char *day;                /* the day that is printed, or NULL */
    bool panel;                     /* the panel of the rules in place of a report */
    bool (*progress)(void *context, unsigned long long done, unsigned long long whole);    /* of files; false: stop. Or NULL */
    void *progress_context;
    size_t errors, warnings, notes;
    char failure[512];              /* why it could not be done */
};

/* Notes why the work cannot go on, and gives `status` back. */
enum status telling_fail(struct telling *telling, enum status status, const char *what, const char *why);

#define PATH_REFUSED_WORDS "it leads out of its folder through a link; --follow-links allows that"

/* STATUS_IO, told, when a file of the kitchen could not be read, or no more. */
enum status telling_unread(struct telling *telling, const struct kitchen *kitchen);

/* Findings, and reports where they are asked for. */
telling_kitchen_call telling_kitchen;

/* All findings of requested files in order of place; NULL when memory failed. They live in the kitchen's arena. */
struct finding **telling_findings(struct kitchen *kitchen, uint32_t *count);

/* The start of a JSON report, before the first recipe. */
void telling_json_head(struct writer *writer);

/* What stands between the recipes and the findings. */
void telling_json_days(struct telling *telling, struct writer *writer);

/* Ends the document that holds several reports, where there is one. */
void telling_end_document(struct telling *telling);

/* One recipe, day or week as a whole document on `showing->writer`. */
enum status telling_document(struct telling *telling, struct showing *showing, const struct report *report);

/* The name of what the report is of. */
struct text report_name(const struct report *report);

/* panel.c: the panel of the rules in place of a report. */
void panel_tell(struct showing *showing, struct sheet *sheet, const struct report *report);

/* report_file.c: the same in a file of its own in the folder, under a name that no other report of the call has. */
enum status report_file_write(struct telling *telling, struct showing *showing, const struct report *report);

/* Writes a file of the folder: `fill` writes what stands in it. `name` is safe, and has no ending. It appears under its name when it
 * is whole; a link of that name is replaced, not followed. */
typedef enum status file_filler(struct telling *telling, struct writer *writer, void *context);
enum status folder_file_write(struct telling *telling, struct text name, file_filler *fill, void *context);

/* Notes a report for the index; and writes the index, in each order. Forms that are read by programs have none. */
enum status index_note(struct telling *telling, struct showing *showing, const struct report *report, struct text file);
enum status index_write(struct telling *telling);
struct sheet;
void index_link(const struct telling *telling, struct sheet *sheet);    /* the way back to it */
void index_close(struct telling *telling);

/* show.c: what a stage left */
enum status show_tokens(struct writer *writer, struct allocator allocator, struct findings *findings, char *bytes,
                        uint32_t length);
enum status show_tree(struct writer *writer, struct allocator allocator, struct findings *findings, char *bytes,
                      uint32_t length);
void show_names(struct showing *showing, const struct sums *sums);
void show_amounts(struct showing *showing, const struct sums *sums);
void show_limits(struct showing *showing, const struct verdicts *verdicts);

#endif
