/* What the unit suites share: a memory budget, texts that are parsed or checked, reports as JSON. */
#ifndef QUERN_TESTS_UNIT_SUPPORT_H
#define QUERN_TESTS_UNIT_SUPPORT_H

#include <check.h>
#include <cjson/cJSON.h>
#include <string.h>

#include "quern.h"
#include "text/text.h"

/* Runs the suite and prints `N passed, N failed`; the exit status is 0 only if something ran and all of it passed. */
int suite_run(Suite *suite);

/* ---- memory that runs out: `left` allocations are granted, none after them; `live` blocks are not yet freed */

struct budget {
    long left, asked, live;
};

void *budget_resize(void *context, void *block, size_t size);
struct allocator budget_allocator(struct budget *budget);

/* ---- a text parsed alone; its trees are kept */

struct parsed {
    struct arena arena, findings_arena;
    struct findings findings;
    struct parse parse;
    struct buffer buffer;
    struct node *first, *last;
    enum status status;
};

void parsed_open(struct parsed *parsed, const char *bytes, size_t length);
void parsed_close(struct parsed *parsed);

/* The codes of findings in order of place, with a blank between them: `unknown-food syntax`. */
void findings_list(struct findings *findings, char *storage, size_t size);

/* Fails unless parsing the text makes exactly these findings. */
void expect_syntax(const char *text, const char *codes);

/* The text of a span. */
bool span_is(const struct parsed *parsed, struct span span, const char *expected);

/* ---- the whole program */

/* A sink that keeps what it gets in a struct buffer. */
bool sink_buffer(void *context, const char *bytes, size_t length);

/* Codes that checking the text finds, as findings_list lists them. */
void check_codes(const char *text, char *storage, size_t size);
void expect_codes(const char *text, const char *codes);

/* The JSON report of a file with this text; the caller deletes it. */
cJSON *report_of(const char *text);

/* A value at a path such as `recipes/0/per_serving/sodium/low`; NULL when it is not there. */
const cJSON *json_at(const cJSON *json, const char *path);
double number_at(const cJSON *json, const char *path);
bool json_is_null(const cJSON *json, const char *path);
const char *json_string(const cJSON *json, const char *path);

/* Fails unless low, best and high at the path are these, within 1e-9 relative. */
void expect_range(const cJSON *json, const char *path, double low, double best, double high);

/* A new empty folder and a file in it. */
void folder_make(char *path, size_t size);
void folder_remove(const char *path);
void file_write(const char *folder, const char *name, const char *bytes, size_t length);

/* `count` copies of a text, with a head and a foot around them; from malloc. */
char *text_repeat(const char *head, const char *middle, size_t count, const char *foot);

double seconds_now(void);

#endif
