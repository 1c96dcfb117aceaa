/* judge: three outcomes, over exact, ranged and incomplete sums; what stands beside figures. */
#include "unit/kitchen.h"
#include "unit/support.h"

#include <math.h>
#include <stdlib.h>

#include "judge/judge.h"

#define UNKNOWN INFINITY

enum { MOST = 1, LEAST = 2, STRICT = 4 };

static const struct {
    int kind;
    double most, least;
    struct range value;
    bool complete;
    enum outcome outcome;
} rows[] = {
    { MOST, 400, 0, { 300, 350, 399 }, true, OUTCOME_KEPT },
    { MOST, 400, 0, { 300, 350, 400 }, true, OUTCOME_KEPT },
    { MOST, 400, 0, { 300, 350, 401 }, true, OUTCOME_IN_DOUBT },
    { MOST, 400, 0, { 400, 450, 500 }, true, OUTCOME_IN_DOUBT },
    { MOST, 400, 0, { 401, 450, 500 }, true, OUTCOME_BROKEN },
    { MOST, 400, 0, { 400 + 1e-8, 400 + 1e-8, 400 + 1e-8 }, true, OUTCOME_KEPT },      /* noise is no breach */
    { MOST, 400, 0, { 300, 300, UNKNOWN }, false, OUTCOME_IN_DOUBT },
    { MOST, 400, 0, { 300, 300, 300 }, false, OUTCOME_IN_DOUBT },                      /* kept only if complete */
    { MOST, 400, 0, { 401, 401, UNKNOWN }, false, OUTCOME_BROKEN },                    /* the known part breaks it */
    { MOST, 0, 0, { 0, 0, 0 }, true, OUTCOME_KEPT },
    { MOST | STRICT, 400, 0, { 300, 350, 399 }, true, OUTCOME_KEPT },
    { MOST | STRICT, 400, 0, { 300, 350, 400 }, true, OUTCOME_IN_DOUBT },
    { MOST | STRICT, 400, 0, { 400, 450, 500 }, true, OUTCOME_BROKEN },
    { LEAST, 0, 400, { 400, 450, 500 }, true, OUTCOME_KEPT },
    { LEAST, 0, 400, { 399, 450, 500 }, true, OUTCOME_IN_DOUBT },
    { LEAST, 0, 400, { 300, 350, 400 }, true, OUTCOME_IN_DOUBT },
    { LEAST, 0, 400, { 300, 350, 399 }, true, OUTCOME_BROKEN },
    { LEAST, 0, 400, { 400, 400, UNKNOWN }, false, OUTCOME_KEPT },                     /* the known part is enough */
    { LEAST, 0, 400, { 0, 0, UNKNOWN }, false, OUTCOME_IN_DOUBT },                     /* never broken while incomplete */
    { LEAST, 0, 400, { 0, 0, 0 }, false, OUTCOME_IN_DOUBT },
    { LEAST | STRICT, 0, 400, { 400, 450, 500 }, true, OUTCOME_IN_DOUBT },
    { LEAST | STRICT, 0, 400, { 401, 450, 500 }, true, OUTCOME_KEPT },
    { LEAST | STRICT, 0, 400, { 300, 350, 400 }, true, OUTCOME_BROKEN },
    { MOST | LEAST, 400, 300, { 300, 350, 400 }, true, OUTCOME_KEPT },
    { MOST | LEAST, 400, 300, { 299, 350, 400 }, true, OUTCOME_IN_DOUBT },
    { MOST | LEAST, 400, 300, { 401, 401, 401 }, true, OUTCOME_BROKEN },
    { MOST | LEAST, 400, 300, { 299, 299, 299 }, true, OUTCOME_BROKEN },
    { MOST | LEAST, 400, 300, { 350, 350, UNKNOWN }, false, OUTCOME_IN_DOUBT },
};

START_TEST(a_bound_is_kept_broken_or_in_doubt)
{
    struct bound bound = { .has_most = rows[_i].kind & MOST, .has_least = rows[_i].kind & LEAST,
                           .strict = rows[_i].kind & STRICT, .most = rows[_i].most, .least = rows[_i].least };
    enum outcome outcome = bound_outcome(&bound, rows[_i].value, rows[_i].complete);
    ck_assert_msg(outcome == rows[_i].outcome, "%s, expected %s", outcome_name(outcome), outcome_name(rows[_i].outcome));
}
END_TEST

static const struct {
    const char *lines, *limit, *outcome, *codes;
} limits[] = {
    { "100 g mill groats", "limit sodium at most 100 mg per serving", "kept", "" },
    { "100 g mill groats", "limit sodium under 100 mg per serving", "broken", "limit-broken" },
    { "100 g mill groats", "goal potassium at least 201 mg per serving", "broken", "goal-missed" },
    { "100 g mill groats", "goal potassium at least 200 mg per serving", "kept", "" },
    { "100 to 200 g mill groats", "limit sodium at most 150 mg per serving", "in doubt", "limit-in-doubt" },
    { "100 to 200 g mill groats", "goal sodium at least 150 mg per serving", "in doubt", "goal-in-doubt" },
    { "100 g mill groats\nsome mill crystals", "limit sodium at most 150 mg per serving", "in doubt", "unmeasured limit-in-doubt" },
    { "100 g mill groats\nsome mill crystals", "limit sodium at most 99 mg per serving", "broken", "unmeasured limit-broken" },
    { "100 g mill groats\nsome mill crystals", "limit potassium at most 200 mg per serving", "kept", "unmeasured" },
    /* what the cooked dish weighs is estimated: never kept, at best in doubt */
    { "100 g mill groats", "limit sodium at most 500 mg per 100 g", "in doubt", "limit-in-doubt" },
    { "100 g mill groats\nmakes 100 g", "limit sodium at most 500 mg per 100 g", "kept", "" },
    { "100 g mill groats\nmakes 80 g", "limit sodium at most 120 mg per 100 g", "broken", "limit-broken" },
    { "100 g mill groats", "limit sodium at most 2000 mg per 1000 kcal", "kept", "" },
    { "100 g mill groats", "limit sodium at most 1999 mg per 1000 kcal", "broken", "limit-broken" },
    { "100 g mill groats", "limit sodium to potassium at most 0.5 by mass", "kept", "" },
    { "100 g mill groats", "limit sodium to potassium under 0.5 by mass", "broken", "limit-broken" },
    { "1 to 9 cups mill groats", "limit sodium to potassium at most 0.5 by mass", "kept", "" },
    { "100 g mill groats\n1 tsp mill crystals", "limit sodium from cook-added at most 2800 mg", "kept", "" },
    { "100 g mill groats\n1 tsp mill crystals", "limit sodium from cook-added at most 1999 mg", "broken", "limit-broken" },
    { "100 g mill groats", "limit sodium between 90 mg and 110 mg per serving", "kept", "" },
    { "100 g mill groats\n1 cup mill goats", "limit sodium at most 1000 mg per serving", "in doubt", "unknown-food limit-in-doubt" },
};

START_TEST(limits_of_recipes_have_their_outcome_and_their_finding)
{
    char text[4096];
    snprintf(text, sizeof text, "%srecipe \"A\" { serves 1\n%s\n%s\n}\n", PANTRY, limits[_i].lines, limits[_i].limit);
    cJSON *json = report_of(text);
    ck_assert_msg(strcmp(json_string(json, "recipes/0/limits/0/outcome"), limits[_i].outcome) == 0, "%s, %s: %s", limits[_i].lines,
                  limits[_i].limit, json_string(json, "recipes/0/limits/0/outcome"));
    cJSON_Delete(json);
    expect_codes(text, limits[_i].codes);
}
END_TEST

START_TEST(a_policy_holds_for_the_recipe_that_follows_it)
{
    static const char text[] = GROATS "policy \"House\" { limit sodium at most 99 mg per serving; limit potassium at most 300 mg per serving }\n"
                                      "recipe \"A\" { serves 1; follow \"House\"; 100 g mill groats }\n"
                                      "recipe \"B\" { serves 1; 100 g mill groats }\n";
    cJSON *json = report_of(text);
    ck_assert_str_eq(json_string(json, "recipes/0/limits/0/outcome"), "broken");
    ck_assert_str_eq(json_string(json, "recipes/0/limits/0/policy"), "House");
    ck_assert_str_eq(json_string(json, "recipes/0/limits/1/outcome"), "kept");
    ck_assert_ptr_null(json_at(json, "recipes/1/limits/0"));
    cJSON_Delete(json);
    expect_codes(text, "limit-broken");
}
END_TEST

/* ---- words */

START_TEST(an_amount_fits_where_it_is_printed)
{
    static const double amounts[] = { 0, 1e-12, 0.1, 140, 99999, 1e9, 1e47, 1e300, INFINITY };
    for (size_t i = 0; i < COUNT_OF(amounts); i++) {
        char storage[48];
        struct text printed = print_amount(storage, sizeof storage, amounts[i], text_of("mg"));
        ck_assert_msg(printed.length < sizeof storage, "%g takes %u bytes of %zu", amounts[i], printed.length, sizeof storage);
    }
}
END_TEST

START_TEST(cautions_stand_beside_the_figures_in_every_form)
{
    static const char text[] = GROATS "recipe \"A\" { serves 1; 100 g mill groats }\n";
    char folder[256], path[300];
    const char *paths[] = { path };
    struct buffer out;
    folder_make(folder, sizeof folder);
    file_write(folder, "a.quern", text, sizeof text - 1);
    snprintf(path, sizeof path, "%s/a.quern", folder);
    for (int form = 0; form < 2; form++) {
        struct quern_session *session = quern_open(NULL);
        buffer_open(&out, allocator_standard());
        ck_assert_int_eq(quern_report(session, paths, 1, NULL, form ? QUERN_AS_JSON : QUERN_AS_TEXT, sink_buffer, &out), QUERN_OK);
        ck_assert_ptr_nonnull(strstr(out.bytes, "care team"));
        ck_assert_ptr_nonnull(strstr(out.bytes, "otassium can be dangerous"));
        buffer_close(&out);
        quern_close(session);
    }
    folder_remove(folder);
}
END_TEST

/* A sum with an unknown part is never printed as a bare number. */
START_TEST(an_incomplete_figure_says_at_least)
{
    static const char text[] = PANTRY "recipe \"A\" { serves 1; 100 g mill groats; some mill crystals }\n";
    char folder[256], path[300];
    const char *paths[] = { path };
    struct buffer out;
    folder_make(folder, sizeof folder);
    file_write(folder, "a.quern", text, sizeof text - 1);
    snprintf(path, sizeof path, "%s/a.quern", folder);
    struct quern_session *session = quern_open(NULL);
    buffer_open(&out, allocator_standard());
    ck_assert_int_eq(quern_report(session, paths, 1, NULL, QUERN_AS_TEXT, sink_buffer, &out), QUERN_OK);
    ck_assert_ptr_nonnull(strstr(out.bytes, "sodium per serving: at least 100 mg (1 line unknown)"));
    buffer_close(&out);
    quern_close(session);
    folder_remove(folder);
}
END_TEST

/* A recipe that would take gigabytes as one dish is told, and nothing of it is known; one below the limits is fine. */
START_TEST(a_dish_has_so_many_lines_and_baths)
{
    static const struct { const char *head, *middle; size_t count; bool fine; } dishes[] = {
        { "recipe \"A\" {\n", "bath \"b\" { 1 cup water }\n", LIMIT_BATHS + 1, false },
        { "recipe \"A\" {\nbath \"b\" { 1 cup water }\n", "1 cup water\n", LIMIT_DISH_LINES, false },
        { "recipe \"A\" {\nbath \"b\" { 1 cup water }\n", "1 cup water\n", LIMIT_DISH_LINES - 1, true },
        { "recipe \"A\" {\n", "1 cup water\n", LIMIT_DISH_LINES + 1, true },
    };
    char *text = text_repeat(dishes[_i].head, dishes[_i].middle, dishes[_i].count, "}\n");
    struct quern_session *session = quern_open(NULL);
    struct buffer out;
    buffer_open(&out, allocator_standard());
    quern_check_text(session, "dish.quern", text, strlen(text), QUERN_AS_JSON, sink_buffer, &out);
    ck_assert_int_eq(strstr(out.bytes, "dish-too-long") == NULL, dishes[_i].fine);
    buffer_close(&out);
    quern_close(session);
    free(text);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("judge");
    TCase *outcomes = tcase_create("outcomes"), *words = tcase_create("words");
    tcase_add_loop_test(outcomes, a_bound_is_kept_broken_or_in_doubt, 0, COUNT_OF(rows));
    tcase_add_loop_test(outcomes, limits_of_recipes_have_their_outcome_and_their_finding, 0, COUNT_OF(limits));
    tcase_add_test(outcomes, a_policy_holds_for_the_recipe_that_follows_it);
    tcase_add_loop_test(outcomes, a_dish_has_so_many_lines_and_baths, 0, 4);
    tcase_add_test(words, an_amount_fits_where_it_is_printed);
    tcase_add_test(words, cautions_stand_beside_the_figures_in_every_form);
    tcase_add_test(words, an_incomplete_figure_says_at_least);
    suite_add_tcase(suite, outcomes);
    suite_add_tcase(suite, words);
    return suite_run(suite);
}
