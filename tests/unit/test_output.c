/* The whole program where memory, outputs and inputs fail. */
#include "unit/kitchen.h"
#include "unit/support.h"

#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/limit.h"
#include "output/sheet.h"

static const char kitchen[] = PANTRY
    "policy \"House\" { limit sodium at most 300 mg per serving; goal potassium at least 3000 mg per serving }\n"
    "recipe \"A\" {\n serves 2 to 3; follow \"House\"\n 1 can mill beans, mill poured and mill washed\n 1 serving \"B\"\n 1 cup \"Mill broth\"\n"
    " 1 cup mill goats\n 2,300 mg mill crystals\n some mill crystals\n part \"Top\" { 1 cup mill groats }, kept 20%\n}\n"
    "recipe \"B\" { serves 4; 100 g mill groats; limit sodium to potassium at most 0.1; method { \"Stir.\" } }\n"
    "recipe \"C\" { serves 1; 1 serving \"C\"; 1 = 2; 1 cup butter }\n";

/* ---- memory */

struct memory_case {
    const char *name;
    enum quern_status (*run)(struct quern_session *session, const char *path, struct buffer *out);
};

static enum quern_status run_check_text(struct quern_session *session, const char *path, struct buffer *out)
{
    (void)path;
    return quern_check_text(session, "a.quern", kitchen, sizeof kitchen - 1, QUERN_AS_TEXT, sink_buffer, out);
}

static enum quern_status run_report_text(struct quern_session *session, const char *path, struct buffer *out)
{
    return quern_report(session, &path, 1, NULL, QUERN_AS_TEXT, sink_buffer, out);
}

static enum quern_status run_report_page(struct quern_session *session, const char *path, struct buffer *out)
{
    return quern_report(session, &path, 1, NULL, QUERN_AS_HTML, sink_buffer, out);
}

static enum quern_status run_report_json(struct quern_session *session, const char *path, struct buffer *out)
{
    return quern_report(session, &path, 1, NULL, QUERN_AS_JSON, sink_buffer, out);
}

static enum quern_status run_lookup(struct quern_session *session, const char *path, struct buffer *out)
{
    (void)path;
    return quern_lookup(session, &(struct quern_lookup){ .words = "mil grots" }, sink_buffer, out);
}

static enum quern_status run_lookup_in_kitchen(struct quern_session *session, const char *path, struct buffer *out)
{
    return quern_lookup(session, &(struct quern_lookup){ .words = "mill groats", .kitchen = path }, sink_buffer, out);
}

static enum quern_status run_lookup_json(struct quern_session *session, const char *path, struct buffer *out)
{
    struct quern_lookup wanted = { .words = "mill groats", .kitchen = path, .lowest = "sodium", .form = QUERN_AS_JSON };
    return quern_lookup(session, &wanted, sink_buffer, out);
}

static enum quern_status run_lookup_csv(struct quern_session *session, const char *path, struct buffer *out)
{
    (void)path;
    return quern_lookup(session, &(struct quern_lookup){ .group = "legumes", .limit = 9, .form = QUERN_AS_CSV }, sink_buffer, out);
}

static enum quern_status run_show(struct quern_session *session, const char *path, struct buffer *out)
{
    char file[300];
    snprintf(file, sizeof file, "%s/a.quern", path);
    enum quern_status status = QUERN_OK;
    static const char *const stages[] = { "tokens", "tree", "names", "amounts", "limits" };
    for (size_t i = 0; i < COUNT_OF(stages) && status != QUERN_FAILED; i++)
        status = quern_show(session, stages[i], file, sink_buffer, out);
    return status;
}

static enum quern_status run_folder(struct quern_session *session, const char *path, struct buffer *out)
{
    char folder[300];
    snprintf(folder, sizeof folder, "%s/out", path);
    return quern_report_to_folder(session, &path, 1, NULL, QUERN_AS_JSON, folder, sink_buffer, out);
}

static enum quern_status run_compare(struct quern_session *session, const char *path, struct buffer *out)
{
    struct quern_compare wanted = { .first = "A", .second = "B", .kitchen = path, .form = QUERN_AS_JSON };
    return quern_compare(session, &wanted, sink_buffer, out);
}

static enum quern_status run_compare_page(struct quern_session *session, const char *path, struct buffer *out)
{
    struct quern_compare wanted = { .first = "A", .second = "mill groats", .kitchen = path, .form = QUERN_AS_HTML };
    return quern_compare(session, &wanted, sink_buffer, out);
}

static enum quern_status run_rank(struct quern_session *session, const char *path, struct buffer *out)
{
    struct quern_rank wanted = { .paths = &path, .count = 1, .limit = 2 };
    return quern_rank(session, &wanted, sink_buffer, out);
}

static enum quern_status run_rank_json(struct quern_session *session, const char *path, struct buffer *out)
{
    struct quern_rank wanted = { .paths = &path, .count = 1, .form = QUERN_AS_JSON };
    return quern_rank(session, &wanted, sink_buffer, out);
}

static const struct memory_case memory_cases[] = {
    { "check of a text", run_check_text }, { "text report", run_report_text }, { "report as a page", run_report_page }, { "JSON report", run_report_json },
    { "lookup", run_lookup }, { "lookup in a kitchen", run_lookup_in_kitchen }, { "lookup as JSON", run_lookup_json },
    { "lookup as CSV", run_lookup_csv }, { "stages", run_show }, { "reports into a folder", run_folder },
    { "comparison as JSON", run_compare }, { "comparison as a page", run_compare_page }, { "rank", run_rank }, { "rank as JSON", run_rank_json },
};

/* Several threads allocate in no fixed order, so one. */
static enum quern_status run_with(const struct memory_case *memory_case, struct budget *budget, const char *path, struct buffer *out)
{
    struct quern_options options = { .resize = budget_resize, .resize_context = budget };
    struct quern_session *session = quern_open(&options);
    if (!session)
        return QUERN_FAILED;
    enum quern_status status = memory_case->run(session, path, out);
    bool told = quern_failure(session)[0] != '\0';
    ck_assert_msg(told == (status == QUERN_FAILED), "status %d, and told: `%s`", status, quern_failure(session));
    quern_close(session);
    return status;
}

static void make_kitchen(char *folder, size_t size)
{
    folder_make(folder, size);
    file_write(folder, "kitchen.quern", "kitchen \"Test\"\nfollow rules us\n", 31);
    file_write(folder, "a.quern", kitchen, sizeof kitchen - 1);
}

/* The shrunk build asks ten times as often, and runs with sanitizers: there it is some 300 allocations from all over. */
static long step_of(long asked)
{
#ifdef QUERN_SMALL
    return asked / 300 + 1;
#else
    (void)asked;
    return 1;
#endif
}

START_TEST(every_allocation_may_fail)
{
    const struct memory_case *memory_case = &memory_cases[_i];
    char folder[256];
    struct buffer whole;
    make_kitchen(folder, sizeof folder);
    buffer_open(&whole, allocator_standard());
    struct budget plenty = { .left = 100000000 };
    enum quern_status wanted = run_with(memory_case, &plenty, folder, &whole);
    ck_assert_int_ne(wanted, QUERN_FAILED);
    ck_assert_int_eq(plenty.live, 0);
    ck_assert_int_gt(plenty.asked, 1);
    long step = step_of(plenty.asked);
    for (long nth = plenty.asked % step; nth <= plenty.asked; nth += step) {
        struct budget budget = { .left = nth };
        struct buffer out;
        buffer_open(&out, allocator_standard());
        enum quern_status status = run_with(memory_case, &budget, folder, &out);
        ck_assert_msg(budget.live == 0, "%s: %ld blocks leak when allocation %ld fails", memory_case->name, budget.live, nth);
        bool enough = nth == plenty.asked;
        ck_assert_msg(status == (enough ? wanted : QUERN_FAILED), "%s: status %d when allocation %ld of %ld fails", memory_case->name,
                      status, nth, plenty.asked);
        if (enough && whole.length)
            ck_assert_mem_eq(out.bytes, whole.bytes, whole.length);
        buffer_close(&out);
    }
    buffer_close(&whole);
    folder_remove(folder);
}
END_TEST

START_TEST(a_session_works_again_after_memory_failed)
{
    struct budget budget = { .left = 20 };
    struct quern_options options = { .resize = budget_resize, .resize_context = &budget };
    struct quern_session *session = quern_open(&options);
    struct buffer out;
    buffer_open(&out, allocator_standard());
    ck_assert_int_eq(run_check_text(session, NULL, &out), QUERN_FAILED);
    ck_assert_str_eq(quern_failure(session), "out of memory");
    budget.left = 10000000;
    ck_assert_int_eq(run_check_text(session, NULL, &out), QUERN_FINDINGS);
    ck_assert_str_eq(quern_failure(session), "");
    quern_close(session);
    buffer_close(&out);
    ck_assert_int_eq(budget.live, 0);
}
END_TEST

/* ---- sinks */

struct failing_sink {
    long left;
};

static bool sink_that_fails(void *context, const char *bytes, size_t length)
{
    struct failing_sink *sink = context;
    (void)bytes;
    (void)length;
    return sink->left-- > 0;
}

START_TEST(a_sink_that_fails_at_any_call_ends_the_work)
{
    char folder[256];
    const char *paths[] = { folder };
    make_kitchen(folder, sizeof folder);
    struct buffer recipes;
    buffer_open(&recipes, allocator_standard());
    for (int i = 0; i < 60; i++)
        buffer_print(&recipes, "recipe \"M%d\" { serves 1; 1 cup kale; 1 cup mill groats; 1 cup mill goats }\n", i);
    file_write(folder, "b.quern", recipes.bytes, recipes.length);
    for (int form = 0; form < 2; form++) {
        for (long calls = 0;; calls++) {
            struct failing_sink sink = { .left = calls };
            struct quern_session *session = quern_open(NULL);
            enum quern_status status = quern_report(session, paths, 1, NULL, form ? QUERN_AS_JSON : QUERN_AS_TEXT, sink_that_fails, &sink);
            bool taken = sink.left >= 0;
            ck_assert_int_eq(status, taken ? QUERN_FINDINGS : QUERN_FAILED);
            ck_assert_int_eq(quern_failure(session)[0] != '\0', !taken);
            quern_close(session);
            if (taken) {
                ck_assert_int_gt(calls, 1);
                break;
            }
        }
    }
    buffer_close(&recipes);
    folder_remove(folder);
}
END_TEST

/* ---- the program itself */

static const char *program(void)
{
    const char *set = getenv("QUERN");
    return set && *set ? set : "build-gcc/quern";
}

/* Runs a command line with $1 the program and $2 the folder; gives its status and what it says on standard error. */
static int run_shell(const char *command, const char *folder, char *error, size_t size)
{
    char script[2048];
    snprintf(script, sizeof script, "set -- '%s' '%s'; exec 2>'%s/errors'; %s", program(), folder, folder, command);
    int status = system(script);
    char path[300];
    snprintf(path, sizeof path, "%s/errors", folder);
    FILE *file = fopen(path, "rb");
    size_t length = file ? fread(error, 1, size - 1, file) : 0;
    error[length] = '\0';
    if (file)
        fclose(file);
    unlink(path);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

static const struct {
    const char *command;
    int status;
    const char *says;
} commands[] = {
    { "\"$1\" report \"$2\" >/dev/full", 2, "No space left" },
    { "\"$1\" report --as json \"$2\" >/dev/full", 2, "No space left" },
    { "\"$1\" check \"$2\" >/dev/full", 2, "No space left" },
    { "\"$1\" lookup kale >/dev/full", 2, "No space left" },
    { "\"$1\" lookup beans --as json >/dev/full", 2, "No space left" },
    { "\"$1\" lookup beans --as csv >/dev/full", 2, "No space left" },
    { "\"$1\" explain >/dev/full", 2, "" },
    { "\"$1\" --help >/dev/full", 2, "" },
    { "\"$1\" --version >/dev/full", 2, "" },
    { "\"$1\" check --help >/dev/full", 2, "" },
    { "\"$1\" check \"$2/none.quern\" >/dev/null", 2, "No such file" },
    { "mkdir \"$2/x.quern\"; \"$1\" check \"$2/x.quern\" >/dev/null; s=$?; rmdir \"$2/x.quern\"; exit $s", 2, "no .quern file" },
    { "mkdir \"$2/empty\"; \"$1\" check \"$2/empty\" >/dev/null; s=$?; rmdir \"$2/empty\"; exit $s", 2, "no .quern file" },
    { "\"$1\" report --out \"$2/none/out\" \"$2\" >/dev/null", 2, "No such file" },
    { "\"$1\" report --out \"$2/a.quern\" \"$2\" >/dev/null", 2, "" },
    { "\"$1\" check --library \"$2/a.quern\" \"$2\" >/dev/null", 2, "no library pack" },
    { "\"$1\" check \"$2\" >&-", 2, "" },
    { "truncate -s 200M \"$2/big.quern\"; \"$1\" check \"$2/big.quern\" >\"$2/said\"; s=$?; rm \"$2/big.quern\"; "
      "grep -c file-too-large \"$2/said\" >&2; rm \"$2/said\"; exit $s", 1, "1\n" },
    { "head -c 70000000 /dev/zero | tr '\\0' ' ' | \"$1\" check - >\"$2/said\"; s=$?; grep -c file-too-large \"$2/said\" >&2; rm \"$2/said\"; exit $s", 1, "1\n" },
};

START_TEST(what_cannot_be_done_is_status_two_with_one_message)
{
    char folder[256], error[4096];
    make_kitchen(folder, sizeof folder);
    int status = run_shell(commands[_i].command, folder, error, sizeof error);
    ck_assert_msg(status == commands[_i].status, "status %d, wanted %d: %s: %s", status, commands[_i].status, commands[_i].command, error);
    ck_assert_msg(strstr(error, commands[_i].says), "%s says: %s", commands[_i].command, error);
    char *end = strchr(error, '\n');
    ck_assert_msg(end && end[1] == '\0', "not one message: %s: `%s`", commands[_i].command, error);
    folder_remove(folder);
}
END_TEST

/* A disk that fills up in the middle of a report leaves nothing under the report's name, and nothing beside it: not the folder
 * either, which was made for it. */
START_TEST(a_report_that_does_not_fit_leaves_no_file)
{
    char folder[256], error[4096];
    make_kitchen(folder, sizeof folder);
    int status = run_shell("trap '' XFSZ; ulimit -f 1; \"$1\" report --as json --out \"$2/out\" \"$2\" >/dev/null; s=$?; "
                           "ls -A \"$2\" | grep -c out >&2; exit $s", folder, error, sizeof error);
    ck_assert_msg(status == 2, "status %d: %s", status, error);
    char *left = strrchr(error, '\n') ? strstr(error, "\n") + 1 : error;
    ck_assert_msg(strcmp(left, "0\n") == 0, "files left behind, or more than one message: %s", error);
    folder_remove(folder);
}
END_TEST

START_TEST(reports_into_a_folder_are_whole_and_one_a_recipe)
{
    char folder[256], error[4096];
    make_kitchen(folder, sizeof folder);
    int status = run_shell("\"$1\" report --as json --out \"$2/out\" \"$2\" >/dev/null; s=$?; "
                           "for f in \"$2\"/out/*; do tail -c 3 \"$f\" | grep -c '\\]}$'; done | sort | uniq -c | tr -d ' \\n' >&2; rm -r \"$2/out\"; exit $s",
                           folder, error, sizeof error);
    ck_assert_int_eq(status, 1);
    ck_assert_str_eq(error, "31");                  /* three files, each with the end of its JSON */
    folder_remove(folder);
}
END_TEST

/* ---- tables on a terminal */

static void tell_table(struct sheet *sheet, const char *first, double bar)
{
    const struct sheet_column columns[] = { { text_of("line"), false }, { text_of("share"), true }, { text_of("from"), false } };
    struct sheet_cell cells[] = { cell_words(text_of(first)), cell_figure(text_of("50%"), 0.5), cell_words(text_of("cook")) };
    cells[1].bar = bar;
    sheet_heading(sheet, 2, text_of("Lines"));
    sheet_table(sheet, text_of("Lines"), columns, 3);
    sheet_row(sheet, cells);
    sheet_table_end(sheet);
}

START_TEST(a_table_loses_no_words_and_its_caption_is_not_said_twice)
{
    static const char longest[] = "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen";
    struct sheet sheet;
    struct writer writer;
    struct buffer out;
    buffer_open(&out, allocator_standard());
    writer_open(&writer, allocator_standard(), sink_buffer, &out);
    sheet_open(&sheet, LOOK_TEXT, &writer, allocator_standard());
    tell_table(&sheet, "short", 0.5);
    tell_table(&sheet, longest, 0);
    sheet_close(&sheet);
    writer_close(&writer);
    char wanted[1000];                              /* of 96 columns the others leave 81 to the first */
    snprintf(wanted, sizeof wanted, "\nLines\n  line   share                       from\n  short    50%% ##########            cook\n"
                                    "\nLines\n  %-81s  share  from\n  %s\n%90s  cook\n", "line", longest, "50%");
    buffer_add(&out, "", 1);
    ck_assert_str_eq(out.bytes, wanted);
    buffer_close(&out);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("output");
    TCase *memory = tcase_create("memory"), *outputs = tcase_create("outputs");
    tcase_set_timeout(memory, 240);
    tcase_set_timeout(outputs, 60);
    tcase_add_loop_test(memory, every_allocation_may_fail, 0, COUNT_OF(memory_cases));
    tcase_add_test(memory, a_session_works_again_after_memory_failed);
    tcase_add_test(outputs, a_sink_that_fails_at_any_call_ends_the_work);
    tcase_add_loop_test(outputs, what_cannot_be_done_is_status_two_with_one_message, 0, COUNT_OF(commands));
    tcase_add_test(outputs, a_report_that_does_not_fit_leaves_no_file);
    tcase_add_test(outputs, reports_into_a_folder_are_whole_and_one_a_recipe);
    tcase_add_test(outputs, a_table_loses_no_words_and_its_caption_is_not_said_twice);
    suite_add_tcase(suite, memory);
    suite_add_tcase(suite, outputs);
    return suite_run(suite);
}
