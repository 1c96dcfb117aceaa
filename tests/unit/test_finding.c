/* finding: what can be wrong, as data, and its words. */
#include "unit/support.h"

#include <ctype.h>

#include "finding/finding.h"

static struct place at(uint32_t file, uint32_t start)
{
    return (struct place){ file, { start, start + 1 } };
}

START_TEST(findings_come_in_order_of_file_and_place)
{
    struct arena arena;
    struct findings findings;
    arena_open(&arena, allocator_standard());
    findings_open(&findings, &arena);
    static const uint32_t places[][2] = { { 1, 5 }, { 0, 9 }, { 1, 2 }, { 0, 3 } };
    for (size_t i = 0; i < COUNT_OF(places); i++)
        finding_add(&findings, FINDING_EXTRA_BRACE, at(places[i][0], places[i][1]), NO_GAPS);
    struct finding **sorted = findings_sorted(&findings);
    for (uint32_t i = 1; i < findings.count; i++)
        ck_assert_uint_lt(sorted[i - 1]->place.file * 100 + sorted[i - 1]->place.span.start,
                          sorted[i]->place.file * 100 + sorted[i]->place.span.start);
    ck_assert_uint_eq(findings.count, 4);
    arena_close(&arena);
}
END_TEST

START_TEST(texts_are_copied_and_labels_notes_and_fixes_keep_their_order)
{
    struct arena arena;
    struct findings findings;
    struct buffer words;
    char name[] = "kale";
    arena_open(&arena, allocator_standard());
    findings_open(&findings, &arena);
    buffer_open(&words, allocator_standard());
    struct finding *finding = finding_add(&findings, FINDING_UNKNOWN_FOOD, at(0, 0), GAPS(text_of(name)));
    finding_note(&findings, finding, WORDS_NEAR_NAME, GAPS(text_of("one")));
    finding_note(&findings, finding, WORDS_NEAR_NAME, GAPS(text_of("two")));
    finding_fix(&findings, finding, at(0, 0), text_of("one"), WORDS_FIX_NAME, GAPS(text_of("one")));
    finding_label(&findings, finding, at(0, 7), WORDS_FIRST_DECLARED_HERE, NO_GAPS);
    memset(name, 'x', sizeof name - 1);
    words_print(&words, &finding->words);
    ck_assert_ptr_nonnull(strstr(words.bytes, "kale"));
    ck_assert(text_is(finding->notes->words.arguments[0], "one"));
    ck_assert(text_is(finding->notes->next->words.arguments[0], "two"));
    ck_assert(text_is(finding->fixes->replacement, "one"));
    ck_assert_uint_eq(finding->labels->place.span.start, 7);
    ck_assert_str_eq(finding_code(finding), "unknown-food");
    buffer_close(&words);
    arena_close(&arena);
}
END_TEST

/* Whoever adds need not look: the list remembers that it is not whole. */
START_TEST(a_finding_that_memory_could_not_hold_is_remembered)
{
    for (long nth = 0; nth < 3; nth++) {
        struct budget budget = { .left = nth };
        struct arena arena;
        struct findings findings;
        char long_text[70000];
        memset(long_text, 'x', sizeof long_text);
        arena_open(&arena, budget_allocator(&budget));
        findings_open(&findings, &arena);
        struct text text = { long_text, sizeof long_text };
        for (int i = 0; i < 4; i++) {
            struct finding *finding = finding_add(&findings, FINDING_UNKNOWN_FOOD, at(0, 0), GAPS(text));
            finding_note(&findings, finding, WORDS_NEAR_NAME, GAPS(text));
            finding_label(&findings, finding, at(0, 0), WORDS_FIRST_DECLARED_HERE, NO_GAPS);
            finding_fix(&findings, finding, at(0, 0), text, WORDS_FIX_NAME, GAPS(text));
        }
        ck_assert_msg(findings.failed, "allocation %ld failed unnoticed", nth);
        arena_close(&arena);
        ck_assert_int_eq(budget.live, 0);
    }
}
END_TEST

START_TEST(every_code_is_lower_case_words_and_says_something)
{
    uint32_t codes = 0;
    for (uint32_t i = 0; i < WORDS_COUNT; i++) {
        const char *code = catalogue_code(i), *message = catalogue_message(i);
        ck_assert(message && *message);
        if (!code)
            continue;
        codes++;
        ck_assert_msg(islower((unsigned char)*code) && strspn(code, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen(code), "%s", code);
        ck_assert_msg(message[strlen(message) - 1] != '.', "%s ends in a full stop", code);
        ck_assert_int_le(catalogue_severity(i), SEVERITY_ERROR);
    }
    ck_assert_uint_gt(codes, 40);
    ck_assert_ptr_null(catalogue_code(WORDS_COUNT));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("finding");
    TCase *all = tcase_create("all");
    tcase_add_test(all, findings_come_in_order_of_file_and_place);
    tcase_add_test(all, texts_are_copied_and_labels_notes_and_fixes_keep_their_order);
    tcase_add_test(all, a_finding_that_memory_could_not_hold_is_remembered);
    tcase_add_test(all, every_code_is_lower_case_words_and_says_something);
    suite_add_tcase(suite, all);
    return suite_run(suite);
}
