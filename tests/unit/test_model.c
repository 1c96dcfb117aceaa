/* model: what lines mean. The foods are made up (kitchen.h); expected masses and sodium are worked out from them. */
#include "unit/kitchen.h"
#include "unit/support.h"

#include <stdlib.h>

/* ---- how much a line is */

static const struct {
    const char *line;
    double low, best, high;             /* mg sodium of the recipe */
} measures[] = {
    { "100 g mill groats", 100, 100, 100 },
    { "0.1 kg mill groats", 100, 100, 100 },
    { "1 lb mill groats", 453.59237, 453.59237, 453.59237 },
    { "1 oz mill groats", 28.349523125, 28.349523125, 28.349523125 },
    { "1 cup mill groats", 200, 200, 200 },
    { "1 CUP Mill Groat", 200, 200, 200 },
    { "1 cup groats mill", 200, 200, 200 },
    { "1 cup packed mill groats", 250, 250, 250 },
    { "1 tbsp mill groats", 12.5, 12.5, 12.5 },                 /* a sixteenth of a cup */
    { "1 to 3 cups mill groats", 200, 400, 600 },
    { "up to 1 cup mill groats", 0, 100, 200 },
    { "1 large mill groats", 40, 40, 40 },
    { "2 mill groats", 40, 60, 80 },                            /* medium at best, small to large */
    { "2 mill groats (300 g)", 300, 300, 300 },                 /* the line's total */
    { "2 mill groats (300 g each)", 600, 600, 600 },
    { "2 cans (100 g) mill beans", 600, 600, 600 },             /* the size of each */
    { "2 (100 g) cans mill beans", 600, 600, 600 },
    { "2 cans (100 g total) mill beans", 300, 300, 300 },
    { "1 can mill beans", 1200, 1200, 1200 },
    { "1 tsp mill crystals", 2000, 2400, 2800 },
    { "1 tsp. mill crystals", 2000, 2400, 2800 },
    { "1 Tsp mill crystals", 2000, 2400, 2800 },
    { "1 level tsp mill crystals", 2000, 2400, 2800 },
    { "1 heaped tsp mill crystals", 2000 * 1.3, 2400 * 1.5, 2800 * 1.7 },
    { "1 tsp mill crystals, heaped", 2000 * 1.3, 2400 * 1.5, 2800 * 1.7 },
    { "2 scant tsp mill crystals", 4000 * 0.7, 4800 * 0.9, 5600 },
    { "1 rounded tsp mill crystals", 2000, 2400 * 1.25, 2800 * 1.7 },
    { "1 tsp mill crystals (20 g), heaped", 8000, 8000, 8000 },   /* what was weighed holds: a level one would disagree */
    { "1 cup chopped mill groats", 200, 200, 200 },
    { "1 cup mill groats, chopped, \"my way\"", 200, 200, 200 },
    { "1 cup mill groats, optional", 0, 200, 200 },
    { "1 cup mill groats, kept 20%", 40, 40, 40 },
    { "1 cup mill groats, kept 15% to 30%", 30, 45, 60 },
    { "1 cup \"Mill broth\"", 575, 580, 585 },
    { "240 ml \"Mill broth\"", 575 * 240 / 240.5, 580, 585 * 240 / 239.5 },   /* its 240 ml are rounded, too */
    { "2 servings \"Mill broth\"", 1150, 1160, 1170 },
};

START_TEST(a_line_weighs_what_it_says)
{
    char text[4096];
    snprintf(text, sizeof text, "%srecipe \"A\" { serves 1\n%s\n}\n", PANTRY, measures[_i].line);
    cJSON *json = report_of(text);
    const cJSON *finding;
    cJSON_ArrayForEach(finding, json_at(json, "findings"))
        ck_assert_msg(strcmp(json_string(finding, "severity"), "error") != 0, "%s: %s", measures[_i].line, json_string(finding, "message"));
    expect_range(json, SODIUM, measures[_i].low, measures[_i].best, measures[_i].high);
    cJSON_Delete(json);
}
END_TEST

/* ---- what a line finds */

static const struct {
    const char *line, *codes;
} findings[] = {
    { "1 T mill groats", "ambiguous-unit" },
    { "1 t mill groats", "ambiguous-unit" },
    { "1 cup mill goats", "unknown-food" },
    { "1 can mill groats", "unknown-food" },                    /* a can is never the dry food */
    { "1 snorg mill groats", "unknown-unit" },
    { "1 cup mill crystals, bedazzled", "unknown-treatment" },
    { "1 cup mill groats, mill poured", "treatment-not-taken" },
    { "mill groats", "missing-amount" },
    { "1 cup mill groats or mill crystals", "or-inside-line" },
    { "some mill crystals", "unmeasured" },
    { "1 cup \"Nobody's stock\"", "unknown-recipe" },
    { "1 bottle (1 kg) mill groats", "" },
    { "1 bottle mill groats", "no-package-size" },
    { "1 cup butter", "choose-kind" },
    { "1 tsp mill crystals, plus more to taste", "no-upper-bound" },
    { "100 g mill crystals, heaped", "not-by-volume" },
    { "100 heaped g mill crystals", "not-by-volume" },
    { "1 large mill groats, scant", "not-by-volume" },
    { "1 heaped tsp mill crystals, heaped", "repeated-statement" },
    { "1 tsp mill crystals (30 g), heaped", "amounts-disagree" },
};

START_TEST(each_thing_that_is_wrong_with_a_line_is_one_finding)
{
    char text[4096];
    snprintf(text, sizeof text, "%srecipe \"A\" { serves 1\n%s\n}\n", PANTRY, findings[_i].line);
    expect_codes(text, findings[_i].codes);
}
END_TEST

START_TEST(five_mistakes_are_five_findings)
{
    expect_codes(PANTRY "recipe \"A\" { serves 1\n 100 g mill goats\n 2 snorgs mill groats\n 100 g mill groats, bedazzled\n"
                 " 1 cup mill groats\n mill groats\n 1,5 g mill crystals\n}\n",
                 "unknown-food unknown-unit unknown-treatment missing-amount digit-comma");
}
END_TEST

START_TEST(a_mistake_said_on_two_lines_is_told_on_both)
{
    expect_codes(PANTRY "recipe \"A\" { serves 1\n 100 g mill goats\n 100 g mill goats\n}\n", "unknown-food unknown-food");
}
END_TEST

START_TEST(a_wrong_line_leaves_the_sum_incomplete_and_never_zero)
{
    static const char *const wrong[] = { "100 g mill goats", "mill groats", "2,300 mg mill groats", "1 = 2", "100 g mill groats (" };
    for (size_t i = 0; i < COUNT_OF(wrong); i++) {
        char text[4096];
        snprintf(text, sizeof text, "%srecipe \"A\" { serves 1\n100 g mill groats\n%s\n}\n", PANTRY, wrong[i]);
        cJSON *json = report_of(text);
        ck_assert_msg(number_at(json, SODIUM "/low") == 100, "%s", wrong[i]);
        ck_assert_msg(json_is_null(json, SODIUM "/best") && json_is_null(json, SODIUM "/high"), "%s", wrong[i]);
        ck_assert_msg(cJSON_IsFalse(json_at(json, SODIUM "/complete")), "%s", wrong[i]);
        cJSON_Delete(json);
    }
}
END_TEST

/* ---- recipes made of recipes */

START_TEST(a_cycle_is_one_finding_however_long_it_is)
{
    expect_codes(PANTRY "recipe \"A\" { serves 1; 1 serving \"A\" }\n", "recipe-cycle");
    expect_codes(PANTRY "recipe \"A\" { serves 1; 1 serving \"B\" }\nrecipe \"B\" { serves 1; 1 serving \"C\" }\n"
                 "recipe \"C\" { serves 1; 1 serving \"A\" }\n", "recipe-cycle");
    expect_codes(PANTRY "recipe \"X\" { serves 1; 1 serving \"A\" }\nrecipe \"A\" { serves 1; 1 serving \"A\" }\n", "recipe-cycle");
}
END_TEST

/* A chain of recipes, the innermost declared first or last: that changes nothing. */
static void expect_chain(uint32_t length, bool backward, const char *codes)
{
    struct buffer text;
    buffer_open(&text, allocator_standard());
    buffer_add_string(&text, GROATS);
    for (uint32_t at = 0; at < length; at++) {
        uint32_t i = backward ? length - 1 - at : at;
        if (i == 0)
            buffer_add_string(&text, "recipe \"R0\" { serves 1; 100 g mill groats }\n");
        else
            buffer_print(&text, "recipe \"R%u\" { serves 1; 1 batch \"R%u\" }\n", i, i - 1);
    }
    char found[4096];
    check_codes(text.bytes, found, sizeof found);
    ck_assert_msg(strcmp(found, codes) == 0, "%u recipes, the innermost %s: expected `%s`, got `%s`", length,
                  backward ? "last" : "first", codes, found);
    buffer_close(&text);
}

START_TEST(recipes_of_recipes_go_as_deep_as_the_limit)
{
    bool backward = _i != 0;
    expect_chain(LIMIT_RECIPE_DEPTH + 1, backward, "");     /* so many inside the outermost */
    expect_chain(LIMIT_RECIPE_DEPTH + 2, backward, "recipe-too-deep");
}
END_TEST

START_TEST(two_recipes_of_one_name_are_one_finding)
{
    expect_codes("recipe \"A\" { serves 1; 1 cup kale }\nrecipe \"a\" { serves 1; 1 cup kale }\n", "duplicate-name");
    expect_codes("recipe \"A\" { serves 1; 1 cup kale }\nlabel \"A\" { serving 1 cup; sodium 0 mg }\n", "duplicate-name");
}
END_TEST

/* Names are compared whole, however long they are. */
START_TEST(long_names_that_differ_at_their_end_are_two_names)
{
    char name[512] = "", text[2048];
    for (int i = 0; i < 30; i++)
        sprintf(name + strlen(name), "w%db ", i);
    snprintf(text, sizeof text, "recipe \"%sx\" { serves 1; 1 cup kale }\nrecipe \"%sy\" { serves 1; 1 cup kale }\n", name, name);
    char codes[256];
    check_codes(text, codes, sizeof codes);
    ck_assert_msg(strstr(codes, "duplicate-name") == NULL, "%s", codes);
}
END_TEST

START_TEST(a_keyword_may_be_the_name_of_a_food)
{
    expect_codes("food limit { group oats; per 100 g { sodium 1 mg }; source \"made up\" }\n"
                 "food half and half sauce { group oats; per 100 g { sodium 1 mg }; source \"made up\" }\n"
                 "recipe \"recipe\" { serves 1\n 100 g limit\n 100 g half and half sauce\n}\n", "");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("model");
    TCase *lines = tcase_create("lines"), *recipes = tcase_create("recipes");
    tcase_add_loop_test(lines, a_line_weighs_what_it_says, 0, COUNT_OF(measures));
    tcase_add_loop_test(lines, each_thing_that_is_wrong_with_a_line_is_one_finding, 0, COUNT_OF(findings));
    tcase_add_test(lines, five_mistakes_are_five_findings);
    tcase_add_test(lines, a_mistake_said_on_two_lines_is_told_on_both);
    tcase_add_test(lines, a_wrong_line_leaves_the_sum_incomplete_and_never_zero);
    tcase_add_test(lines, a_keyword_may_be_the_name_of_a_food);
    tcase_set_timeout(recipes, 60);
    tcase_add_test(recipes, a_cycle_is_one_finding_however_long_it_is);
    tcase_add_loop_test(recipes, recipes_of_recipes_go_as_deep_as_the_limit, 0, 2);
    tcase_add_test(recipes, two_recipes_of_one_name_are_one_finding);
    tcase_add_test(recipes, long_names_that_differ_at_their_end_are_two_names);
    suite_add_tcase(suite, lines);
    suite_add_tcase(suite, recipes);
    return suite_run(suite);
}
