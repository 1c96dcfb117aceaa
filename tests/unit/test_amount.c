/* amount: sums, treatments with their basis, origins, ratios. Expected figures are worked out in the comments. */
#include "unit/kitchen.h"
#include "unit/support.h"

#include <math.h>

static cJSON *report_lines(const char *lines)
{
    char text[8192];
    snprintf(text, sizeof text, "%srecipe \"A\" { serves 1\n%s\n}\n", PANTRY, lines);
    return report_of(text);
}

/* ---- treatments: what is weighed as canned uses `keeps`, what is weighed as it is used `strength` */

static const struct {
    const char *line;
    double low, best, high;             /* mg sodium */
    double grams_low, grams_best, grams_high;   /* after treatments */
} treated[] = {
    /* a can of 400 g holds 1200 mg; 40, 50, 60% stay; 50, 60, 75% of the mass */
    { "1 can mill beans, mill poured", 480, 600, 720, 200, 240, 300 },
    { "1 can (200 g) mill beans, mill poured", 240, 300, 360, 100, 120, 150 },
    /* 200 g of poured beans: no strength is given, so keeps over mass with every combination of bounds:
     * 40/75 = 0.5333, 50/60 = 0.8333, 60/50 = 1.2 of 600 mg */
    { "200 g mill beans canned, mill poured", 320, 500, 720, 200, 200, 200 },
    /* a drained cup is 150 g */
    { "1 cup mill beans canned, mill measured", 360, 405, 450, 150, 150, 150 },
    /* a measured strength wins: 80, 90, 100% of 600 mg */
    { "200 g mill beans canned, mill measured", 480, 540, 600, 200, 200, 200 },
    { "200 g mill beans canned, mill measured, as canned", 300, 300, 300, 120, 120, 120 },
    /* the longest declared sequence: 20, 30, 40%, not 0.5 × 0.7 */
    { "1 can mill beans, mill poured, mill washed", 240, 360, 480, 200, 240, 300 },
    { "1 can mill beans, mill poured and mill washed", 240, 360, 480, 200, 240, 300 },
    /* only part of a line stays */
    { "1 can mill beans, mill poured, kept 50%", 240, 300, 360, 100, 120, 150 },
};

START_TEST(treatments_use_the_basis_that_the_amount_was_weighed_in)
{
    cJSON *json = report_lines(treated[_i].line);
    expect_range(json, SODIUM, treated[_i].low, treated[_i].best, treated[_i].high);
    expect_range(json, "recipes/0/lines/0/sodium", treated[_i].low, treated[_i].best, treated[_i].high);
    expect_range(json, "recipes/0/lines/0/grams_after", treated[_i].grams_low, treated[_i].grams_best, treated[_i].grams_high);
    cJSON_Delete(json);
}
END_TEST

/* A nutrient that a treatment does not name is unknown afterwards, not unchanged. */
START_TEST(what_a_treatment_does_not_name_becomes_unknown)
{
    cJSON *json = report_of(PANTRY "treatment mill odd { for canned legumes; keeps sodium 50%; mass 60%; evidence from memory; source \"made up\" }\n"
                            "recipe \"A\" { serves 1; 1 can mill beans, mill odd }\n");
    expect_range(json, SODIUM, 600, 600, 600);
    ck_assert(json_is_null(json, "recipes/0/per_recipe/potassium/best"));
    ck_assert(cJSON_IsFalse(json_at(json, "recipes/0/per_recipe/potassium/complete")));
    cJSON_Delete(json);
}
END_TEST

/* ---- sums */

START_TEST(fourteen_hundred_tenths_are_a_hundred_and_forty)
{
    struct buffer lines;
    buffer_open(&lines, allocator_standard());
    for (int i = 0; i < 1400; i++)
        buffer_add_string(&lines, "0.1 g mill groats\n");
    struct buffer text;
    buffer_open(&text, allocator_standard());
    buffer_print(&text, "%srecipe \"A\" { serves 1\n limit sodium at most 140 mg per serving\n limit sodium at least 140 mg per serving\n%s}\n", GROATS, lines.bytes);
    cJSON *json = report_of(text.bytes);
    ck_assert_str_eq(json_string(json, "recipes/0/limits/0/outcome"), "kept");
    ck_assert_str_eq(json_string(json, "recipes/0/limits/1/outcome"), "kept");
    cJSON_Delete(json);
    buffer_close(&text);
    buffer_close(&lines);
}
END_TEST

START_TEST(a_range_of_servings_divides_by_its_middle_and_ends)
{
    cJSON *json = report_of(GROATS "recipe \"A\" { serves 4 to 6; 600 g mill groats }\n");
    expect_range(json, "recipes/0/servings", 4, 5, 6);
    expect_range(json, "recipes/0/per_serving/sodium", 100, 120, 150);
    expect_range(json, "recipes/0/per_recipe/sodium", 600, 600, 600);
    cJSON_Delete(json);
}
END_TEST

START_TEST(without_servings_there_is_no_figure_per_serving)
{
    cJSON *json = report_of(GROATS "recipe \"A\" { 600 g mill groats }\n");
    ck_assert(json_is_null(json, "recipes/0/per_serving"));
    expect_range(json, SODIUM, 600, 600, 600);
    cJSON_Delete(json);
}
END_TEST

START_TEST(a_recipe_inside_another_counts_by_serving_batch_and_mass)
{
    cJSON *json = report_of(GROATS "recipe \"A\" { serves 1\n 1 serving \"B\"\n 1/2 batch \"B\"\n 200 g \"B\"\n}\n"
                            "recipe \"B\" { serves 4; makes 800 g; 1 to 3 cups mill groats }\n");
    /* B holds 200, 400, 600 mg: a quarter, a half and a quarter of it */
    expect_range(json, "recipes/0/lines/0/sodium", 50, 100, 150);
    expect_range(json, "recipes/0/lines/1/sodium", 100, 200, 300);
    expect_range(json, "recipes/0/lines/2/sodium", 50, 100, 150);
    expect_range(json, SODIUM, 200, 400, 600);
    cJSON_Delete(json);
}
END_TEST

START_TEST(an_incomplete_recipe_makes_those_that_use_it_incomplete)
{
    cJSON *json = report_of(PANTRY "recipe \"A\" { serves 1\n 1 batch \"B\"\n}\nrecipe \"B\" { serves 4; 100 g mill groats; some mill crystals }\n");
    ck_assert_double_eq(number_at(json, SODIUM "/low"), 100);
    ck_assert(json_is_null(json, SODIUM "/high"));
    expect_range(json, "recipes/0/per_recipe/energy", 50, 50, 50);      /* salt has no energy, however much of it */
    cJSON_Delete(json);
}
END_TEST

START_TEST(the_parts_by_origin_sum_to_the_total)
{
    static const char *const origins[] = { "inherent", "maker", "cook", "unseparated" }, *const ends[] = { "low", "best", "high" };
    cJSON *json = report_lines("1 can mill beans, mill poured\n1 tsp mill crystals\n1 to 2 cups mill groats\n1 cup \"Mill broth\"");
    for (size_t end = 0; end < COUNT_OF(ends); end++) {
        double sum = 0;
        char path[128];
        for (size_t i = 0; i < COUNT_OF(origins); i++) {
            snprintf(path, sizeof path, SODIUM "/origin/%s/%s", origins[i], ends[end]);
            sum += number_at(json, path);
        }
        snprintf(path, sizeof path, SODIUM "/%s", ends[end]);
        ck_assert_double_eq_tol(sum, number_at(json, path), 1e-6);
    }
    expect_range(json, SODIUM "/origin/cook", 2000, 2400, 2800);
    cJSON_Delete(json);
}
END_TEST

/* ---- ratios, over all corners */

static const struct {
    const char *lines;
    double low, best, high;             /* sodium to potassium, by mass */
} ratios[] = {
    /* one food drives both sides: its amount cancels */
    { "1 to 3 cups mill groats", 0.5, 0.5, 0.5 },
    { "1 to 3 cups mill groats\n2 to 5 cups mill groats", 0.5, 0.5, 0.5 },
    /* salt alone varies: 100 + 400·(5, 6, 7)/… over 200 */
    { "100 g mill groats\n1/40 tsp mill crystals", 150.0 / 200, 160.0 / 200, 170.0 / 200 },
    /* groats vary: (100 k + 40) / 200 k for k from 1 to 3; best 240 / 400 */
    { "100 to 300 g mill groats\n0.1 g mill crystals", 340.0 / 600, 240.0 / 400, 140.0 / 200 },
};

START_TEST(a_ratio_takes_the_corners_that_one_line_can_reach_together)
{
    char lines[512];
    snprintf(lines, sizeof lines, "%s\nlimit sodium to potassium at most 100 by mass", ratios[_i].lines);
    cJSON *json = report_lines(lines);
    expect_range(json, "recipes/0/limits/0/value", ratios[_i].low, ratios[_i].best, ratios[_i].high);
    cJSON_Delete(json);
}
END_TEST

/* 100 g of an estimated mass: the groats cancel. */
START_TEST(per_100_g_of_one_food_is_exact_however_much_of_it)
{
    cJSON *json = report_lines("1 to 3 cups mill groats");
    expect_range(json, "recipes/0/per_100_g/sodium", 100, 100, 100);
    cJSON_Delete(json);
}
END_TEST

/* Six recipes of a thousand million batches each pass what a double holds in a few steps more. */
START_TEST(sums_beyond_all_numbers_are_never_called_complete)
{
    struct buffer text;
    buffer_open(&text, allocator_standard());
    buffer_add_string(&text, GROATS "recipe \"R0\" { serves 1; 1000000000 g mill groats }\n");
    for (int i = 1; i < 40; i++)
        buffer_print(&text, "recipe \"R%d\" { serves 1; 1000000000 batches \"R%d\"; limit sodium at most 5 mg per serving }\n", i, i - 1);
    cJSON *json = report_of(text.bytes);
    const cJSON *recipe;
    cJSON_ArrayForEach(recipe, json_at(json, "recipes")) {
        const cJSON *sodium = json_at(recipe, "per_recipe/sodium");
        bool numbers = cJSON_IsNumber(json_at(sodium, "low")) && cJSON_IsNumber(json_at(sodium, "best")) && cJSON_IsNumber(json_at(sodium, "high"));
        ck_assert_msg(cJSON_IsNumber(json_at(sodium, "low")), "%s has no low", json_string(recipe, "name"));
        ck_assert_msg(numbers == cJSON_IsTrue(json_at(sodium, "complete")), "%s", json_string(recipe, "name"));
    }
    cJSON_Delete(json);
    buffer_close(&text);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("amount");
    TCase *sums = tcase_create("sums"), *treatments = tcase_create("treatments"), *corners = tcase_create("ratios");
    tcase_add_loop_test(treatments, treatments_use_the_basis_that_the_amount_was_weighed_in, 0, COUNT_OF(treated));
    tcase_add_test(treatments, what_a_treatment_does_not_name_becomes_unknown);
    tcase_add_test(sums, fourteen_hundred_tenths_are_a_hundred_and_forty);
    tcase_add_test(sums, a_range_of_servings_divides_by_its_middle_and_ends);
    tcase_add_test(sums, without_servings_there_is_no_figure_per_serving);
    tcase_add_test(sums, a_recipe_inside_another_counts_by_serving_batch_and_mass);
    tcase_add_test(sums, an_incomplete_recipe_makes_those_that_use_it_incomplete);
    tcase_add_test(sums, the_parts_by_origin_sum_to_the_total);
    tcase_add_test(sums, sums_beyond_all_numbers_are_never_called_complete);
    tcase_add_loop_test(corners, a_ratio_takes_the_corners_that_one_line_can_reach_together, 0, COUNT_OF(ratios));
    tcase_add_test(corners, per_100_g_of_one_food_is_exact_however_much_of_it);
    suite_add_tcase(suite, treatments);
    suite_add_tcase(suite, sums);
    suite_add_tcase(suite, corners);
    return suite_run(suite);
}
