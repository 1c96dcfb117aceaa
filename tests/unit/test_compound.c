/* library: formulas, compounds, blends. The weights of the made-up elements are round, so that sums can be done by head;
 * what real compounds hold is held against their published figures in tests/outside/run. */
#include "unit/support.h"

#include <math.h>
#include <stdlib.h>

#include "library/formula.h"

/* ---- formulas: X weighs 1 and counts as nutrient 0, Yy 10 and as 1, Z 100 and as nothing */

static const struct element made_up[] = {
    { .weight = 1, .nutrient = 0 }, { .weight = 10, .nutrient = 1 }, { .weight = 100, .nutrient = NONE_INDEX },
};

static const struct element *find(const void *context, struct text symbol)
{
    static const char *const symbols[] = { "X", "Yy", "Z" };
    const struct element *elements = context;
    for (uint32_t i = 0; i < COUNT_OF(symbols); i++) {
        if (text_is(symbol, symbols[i]))
            return &elements[i];
    }
    return NULL;
}

static enum formula_trouble read_text(const char *text, struct formula *formula, struct span *at)
{
    size_t length = strlen(text);
    char *copy = malloc(length ? length : 1);       /* exactly its length, so that a read past it shows */
    memcpy(copy, text, length);
    enum formula_trouble trouble = formula_read((struct text){ copy, (uint32_t)length }, find, made_up, formula, at);
    free(copy);
    return trouble;
}

static const struct {
    const char *text;
    double mass, first, second;         /* of the whole, of nutrients 0 and 1 */
} formulas[] = {
    { "X", 1, 1, 0 },
    { "XYy", 11, 1, 10 },
    { "XYyZ3", 311, 1, 10 },
    { "X2Yy3", 32, 2, 30 },
    { "X2YyX", 13, 3, 10 },                         /* an element may come again */
    { "X12", 12, 12, 0 },
    { "X9999", 9999, 9999, 0 },                     /* the limit */
    { "Z(XYy)2", 122, 2, 20 },
    { "(XYy)2Z", 122, 2, 20 },
    { "(X)3", 3, 3, 0 },
    { "Z4[X(Yy)6]", 461, 1, 60 },
    { "Z[X2(YyX)3]2", 170, 10, 60 },
    { "((((((((X))))))))", 1, 1, 0 },               /* eight: the limit */
    { "Z\xc2\xb7XYy", 111, 1, 10 },
    { "Z\xc2\xb7" "2X2Yy", 124, 4, 20 },            /* the number is for all of its part */
    { "Z.2X2Yy", 124, 4, 20 },
    { "Z*2X2Yy", 124, 4, 20 },
    { "Z\xe2\x8b\x85" "2X2Yy", 124, 4, 20 },
    { "Z\xe2\x80\xa2" "2X2Yy", 124, 4, 20 },
    { "Z \xc2\xb7 2 X2Yy ", 124, 4, 20 },
    { "Z7.2X", 702, 2, 0 },                         /* a joint, no decimal point */
    { "Z.0.5X2Yy", 106, 1, 5 },
    { "Z\xc2\xb7" "7.5X", 107.5, 7.5, 0 },
    { "2XYy.Z", 122, 2, 20 },
    { "X.Yy.Z", 111, 1, 10 },
    { "X\xe2\x82\x82Yy\xe2\x82\x81\xe2\x82\x80", 102, 2, 100 },   /* subscripts */
};

START_TEST(a_formula_says_what_of_its_mass_is_what)
{
    struct formula formula;
    struct span at;
    enum formula_trouble trouble = read_text(formulas[_i].text, &formula, &at);
    ck_assert_msg(trouble == FORMULA_SOUND, "`%s`: trouble %d", formulas[_i].text, trouble);
    ck_assert_msg(fabs(formula.mass - formulas[_i].mass) < 1e-9 && fabs(formula.counted[0] - formulas[_i].first) < 1e-9
                      && fabs(formula.counted[1] - formulas[_i].second) < 1e-9,
                  "`%s`: %.9g, %.9g, %.9g", formulas[_i].text, formula.mass, formula.counted[0], formula.counted[1]);
}
END_TEST

static const struct {
    const char *text;
    enum formula_trouble trouble;
    uint32_t start, end;
} troubles[] = {
    { "", FORMULA_EMPTY, 0, 0 },
    { "  ", FORMULA_EMPTY, 2, 2 },
    { "Z.", FORMULA_EMPTY, 2, 2 },
    { ".Z", FORMULA_EMPTY, 0, 0 },
    { "Z..X", FORMULA_EMPTY, 2, 2 },
    { "2", FORMULA_EMPTY, 0, 1 },
    { "Z()X", FORMULA_EMPTY, 1, 3 },
    { "Q", FORMULA_UNKNOWN_ELEMENT, 0, 1 },
    { "XQqq2", FORMULA_UNKNOWN_ELEMENT, 1, 4 },
    { "XY", FORMULA_UNKNOWN_ELEMENT, 1, 2 },        /* capitals tell: Yy is one */
    { "Xy", FORMULA_UNKNOWN_ELEMENT, 0, 2 },
    { "Z(X", FORMULA_UNBALANCED, 1, 2 },
    { "Z(X]", FORMULA_UNBALANCED, 1, 2 },
    { "Z[(X]", FORMULA_UNBALANCED, 2, 3 },
    { "Z)X", FORMULA_UNBALANCED, 1, 2 },
    { "ZX)2", FORMULA_UNBALANCED, 2, 3 },
    { ")", FORMULA_UNBALANCED, 0, 1 },
    { "X0", FORMULA_BAD_NUMBER, 1, 2 },
    { "X02", FORMULA_BAD_NUMBER, 1, 3 },            /* nearly always the letter O */
    { "X10000", FORMULA_BAD_NUMBER, 1, 6 },         /* one past the limit */
    { "X99999999999999999999", FORMULA_BAD_NUMBER, 1, 21 },
    { "(X)0", FORMULA_BAD_NUMBER, 3, 4 },
    { "Z.0X", FORMULA_BAD_NUMBER, 2, 3 },
    { "Z.0.0X", FORMULA_BAD_NUMBER, 2, 5 },
    { "Z.2.X", FORMULA_BAD_NUMBER, 2, 4 },
    { "Z.1.00001X", FORMULA_BAD_NUMBER, 2, 9 },
    { "x", FORMULA_STRAY, 0, 1 },
    { "X-Z", FORMULA_STRAY, 1, 2 },
    { "X+", FORMULA_STRAY, 1, 2 },
    { "X Z", FORMULA_STRAY, 2, 3 },
    { "X purity 9%", FORMULA_STRAY, 2, 8 },
    { "X\xc3\xa9", FORMULA_STRAY, 1, 3 },
    { "X\xe2\x82", FORMULA_STRAY, 1, 2 },           /* a sign that is cut off */
    { "X\xff", FORMULA_STRAY, 1, 2 },
    { "(((((((((X)))))))))", FORMULA_TOO_DEEP, 8, 9 },  /* nine */
};

START_TEST(trouble_of_a_formula_is_told_with_its_place)
{
    struct formula formula;
    struct span at;
    enum formula_trouble trouble = read_text(troubles[_i].text, &formula, &at);
    ck_assert_msg(trouble == troubles[_i].trouble && at.start == troubles[_i].start && at.end == troubles[_i].end,
                  "`%s`: trouble %d at %u to %u", troubles[_i].text, trouble, at.start, at.end);
}
END_TEST

/* ---- compounds and blends, with elements of the kitchen's own: Xx 30 counts as sodium, Yy 10 as potassium, Zz 60 */

#define ELEMENTS \
    "element xenium { symbol Xx; weight 30; counts as sodium }\n" \
    "element yttrum { symbol Yy; weight 10; counts as potassium }\n" \
    "element zedium { symbol Zz; weight 60 }\n"
#define XZ "compound mill xz { formula Xx2Zz; group salts; source \"made up\" }\n"          /* half sodium */
#define YZ "compound mill yz { formula Yy4Zz; group salts; source \"made up\" }\n"          /* four tenths potassium */
#define EAT(food) "recipe \"Eaten\" { serves 1; 100 g " food " }\n"

#define SODIUM "recipes/0/per_recipe/sodium"
#define POTASSIUM "recipes/0/per_recipe/potassium"
#define CALCIUM "recipes/0/per_recipe/calcium"

static const struct {
    const char *text;
    double sodium[3], potassium[3];     /* mg in 100 g: low, best, high */
} mixtures[] = {
    { XZ EAT("mill xz"), { 50000, 50000, 50000 }, { 0, 0, 0 } },
    { YZ EAT("mill yz"), { 0, 0, 0 }, { 40000, 40000, 40000 } },
    { "compound q { formula \"Xx2Zz\" }\n" EAT("q"), { 50000, 50000, 50000 }, { 0, 0, 0 } },
    { "compound q { formula Zz(Xx)2 }\n" EAT("q"), { 50000, 50000, 50000 }, { 0, 0, 0 } },
    { "compound q { formula (Xx)2Zz }\n" EAT("q"), { 50000, 50000, 50000 }, { 0, 0, 0 } },
    { "compound q { formula 2Xx.Zz }\n" EAT("q"), { 50000, 50000, 50000 }, { 0, 0, 0 } },
    { "compound q { formula Xx2\xc2\xb7Zz }\n" EAT("q"), { 50000, 50000, 50000 }, { 0, 0, 0 } },
    { "compound q { formula Xx2 * Zz; }\n" EAT("q"), { 50000, 50000, 50000 }, { 0, 0, 0 } },
    /* the impurity may be none of a nutrient, or all of it */
    { "compound q { formula Xx2Zz; purity 90% to 100% }\n" EAT("q"), { 45000, 47500, 55000 }, { 0, 0, 10000 } },
    { "compound q { formula Xx2Zz; purity 95% }\n" EAT("q"), { 47500, 47500, 52500 }, { 0, 0, 5000 } },
    { "compound q { formula Xx2Zz; purity 99% (90% to 100%) \"read\" }\n" EAT("q"), { 45000, 49500, 55000 }, { 0, 0, 10000 } },
    { "compound q { purity 90% to 100%; formula Xx2Zz }\n" EAT("q"), { 45000, 47500, 55000 }, { 0, 0, 10000 } },
    /* blends */
    { XZ YZ "blend q { 50% mill xz; 50% mill yz }\n" EAT("q"), { 25000, 25000, 25000 }, { 20000, 20000, 20000 } },
    { "blend q { 50% mill xz; 50% mill yz }\n" XZ YZ EAT("q"), { 25000, 25000, 25000 }, { 20000, 20000, 20000 } },
    { XZ YZ "blend q { 30% to 70% mill xz; 30% to 70% mill yz }\n" EAT("q"), { 15000, 25000, 35000 }, { 12000, 20000, 28000 } },
    /* middles of 50% and 40% miss a tenth, and there is room for four: each goes a quarter of its way up */
    { XZ YZ "blend q { 30% to 70% mill xz; 20% to 60% mill yz }\n" EAT("q"), { 15000, 27500, 35000 }, { 8000, 18000, 24000 } },
    /* 60% and 45%: a twentieth too much, all of it from the one that has room */
    { XZ YZ "blend q { 60% mill xz; 30% to 60% mill yz }\n" EAT("q"), { 30000, 30000, 30000 }, { 12000, 16000, 24000 } },
    { XZ YZ "blend p { 50% mill xz; 50% mill yz }\nblend q { 50% p; 50% mill yz }\n" EAT("q"), { 12500, 12500, 12500 }, { 30000, 30000, 30000 } },
    { XZ YZ "blend q { 99.995% mill xz }\n" EAT("q"), { 50000, 50000, 50000 }, { 0, 0, 0 } },  /* scaled to a whole */
    { XZ YZ "blend q { up to 100% mill xz; up to 100% mill yz }\n" EAT("q"), { 0, 25000, 50000 }, { 0, 20000, 40000 } },
};

START_TEST(compounds_and_blends_hold_what_follows_from_them)
{
    char text[4096];
    snprintf(text, sizeof text, "%s%s", ELEMENTS, mixtures[_i].text);
    cJSON *report = report_of(text);
    expect_range(report, SODIUM, mixtures[_i].sodium[0], mixtures[_i].sodium[1], mixtures[_i].sodium[2]);
    expect_range(report, POTASSIUM, mixtures[_i].potassium[0], mixtures[_i].potassium[1], mixtures[_i].potassium[2]);
    cJSON_Delete(report);
}
END_TEST

START_TEST(what_no_element_counts_as_is_unknown_unless_it_is_said)
{
    cJSON *report = report_of(ELEMENTS XZ EAT("mill xz"));
    ck_assert(json_is_null(report, "recipes/0/per_recipe/energy/best"));
    cJSON_Delete(report);
    report = report_of(ELEMENTS "compound q { formula Xx2Zz; per 50 g { energy 100 kcal } }\n" EAT("q"));
    expect_range(report, "recipes/0/per_recipe/energy", 200, 200, 200);
    expect_range(report, SODIUM, 50000, 50000, 50000);      /* the 50 g are of the energy alone */
    ck_assert(json_is_null(report, "recipes/0/per_recipe/protein/best"));
    cJSON_Delete(report);
}
END_TEST

START_TEST(a_blend_is_unknown_where_a_part_of_it_is)
{
    cJSON *report = report_of(ELEMENTS XZ "food half known { per 100 g { potassium 100 mg } }\n"
                              "blend q { 50% mill xz; 50% half known }\n" EAT("q"));
    ck_assert(json_is_null(report, SODIUM "/best"));
    ck_assert(json_is_null(report, SODIUM "/high"));
    expect_range(report, POTASSIUM, 50, 50, 50);
    ck_assert(json_is_null(report, CALCIUM "/best"));
    cJSON_Delete(report);
}
END_TEST

START_TEST(sodium_of_mixtures_is_the_cooks_where_their_group_says_so)
{
    cJSON *report = report_of(ELEMENTS XZ YZ "blend q { group leavenings; 50% mill xz; 50% mill yz }\n" EAT("q"));
    expect_range(report, SODIUM "/origin/cook", 25000, 25000, 25000);
    cJSON_Delete(report);
    report = report_of(ELEMENTS XZ YZ "blend q { 50% mill xz; 50% mill yz }\n" EAT("q"));
    expect_range(report, SODIUM "/origin/unseparated", 25000, 25000, 25000);
    cJSON_Delete(report);
}
END_TEST

START_TEST(mixtures_have_portions_and_further_names_as_foods_do)
{
    cJSON *report = report_of(ELEMENTS XZ YZ "blend q { also second name; 50% mill xz; 50% mill yz; 1 tsp = 4 g (3 g to 5 g) }\n"
                              "recipe \"Eaten\" { serves 1; 1 tsp second name }\n");
    expect_range(report, SODIUM, 750, 1000, 1250);
    cJSON_Delete(report);
}
END_TEST

/* A line that a recipe has said before, some hundred words earlier, is not parsed again; as a share it must be. */
START_TEST(a_share_that_a_recipe_has_said_before_is_read)
{
    char *text = text_repeat(ELEMENTS EAT("q") "recipe \"Shares\" {\n    50% mill xz\n}\nrecipe \"Long\" {\n",
                             "    1 cup water\n", 300, "}\n" XZ YZ "blend q {\n    50% mill xz\n    50% mill yz\n}\n");
    cJSON *report = report_of(text);
    expect_range(report, SODIUM, 25000, 25000, 25000);
    cJSON_Delete(report);
    free(text);
}
END_TEST

/* The text is kept when its first knowledge has been read; the scanner may then stand before any later declaration. */
START_TEST(knowledge_behind_a_long_recipe_is_read)
{
    char *text = text_repeat(ELEMENTS EAT("mill xz") "recipe \"Long\" {\n", "    1 cup water\n", 300, "}\n" XZ);
    cJSON *report = report_of(text);
    expect_range(report, SODIUM, 50000, 50000, 50000);
    cJSON_Delete(report);
    free(text);
}
END_TEST

/* Widened by samples, a blend is as wide as what it is mixed from. */
START_TEST(a_blend_varies_as_its_parts_do)
{
    cJSON *report = report_of(ELEMENTS XZ
                              "food varied { per 100 g { sodium 1000 mg }; measured sodium 9 samples { lowest 800 mg; highest 1600 mg } }\n"
                              "blend q { 50% mill xz; 50% varied }\n"
                              "policy \"Wide\" { variation }\nfollow \"Wide\"\n" EAT("q"));
    expect_range(report, SODIUM, 25400, 25500, 25800);
    expect_range(report, SODIUM "/origin/unseparated", 25400, 25500, 25800);
    cJSON_Delete(report);
}
END_TEST

/* ---- what is wrong: one cause, one finding */

static const struct {
    const char *text, *codes;
} wrong[] = {
    { "compound q { formula Xx2Qq }\n", "unknown-element" },
    { "compound q { formula }\n", "bad-formula" },
    { "compound q { formula \"\" }\n", "bad-formula" },
    { "compound q { formula \"Xx(Zz\" }\n", "bad-formula" },
    { "compound q { formula Xx(Zz }\n", "missing-parenthesis" },
    { "compound q { formula Xx10000 }\n", "bad-formula" },
    { "compound q { formula 2000000000Xx }\n", "number-too-large" },
    { "compound q { formula Xx purity 99% }\n", "bad-formula" },
    { "compound q { formula Xx, Zz }\n", "bad-formula" },
    { "compound q { formula Xx { } }\n", "misplaced" },
    { "compound q { group salts }\n", "missing-formula" },
    { "compound q { purity 99% }\n", "missing-formula" },
    { "compound q { formula Xx; formula Xx }\n", "repeated-statement" },
    { "compound q { formula Xx; purity 99%; purity 99% }\n", "repeated-statement" },
    { "compound q { formula Xx; purity 100.1% }\n", "bad-purity" },
    { "compound q { formula Xx; purity 0% }\n", "bad-purity" },
    { "compound q { formula Xx; purity 0% to 100% }\n", "bad-purity" },
    { "compound q { formula Xx; purity 0.99 }\n", "bad-purity" },
    { "compound q { formula Xx; purity }\n", "bad-purity" },
    { "compound q { formula Xx; purity 99% g }\n", "bad-purity" },
    { "compound q { formula Xx; purity 99% to 98% }\n", "backward-range" },
    { "compound q { formula Xx; purity 99% (99.5% to 100%) }\n", "bounds-outside" },
    { "compound q { formula Xx; per 100 g { sodium 1 g } }\n", "computed-figure" },
    { "compound q { formula Zz; per 100 g { potassium 1 g } }\n", "computed-figure" },
    { "compound q { formula Xx; per 100 g { energy 1 kcal; energy 2 kcal } }\n", "repeated-statement" },
    { "compound q 5 { formula Xx }\n", "extra-words" },
    { "compound \"q 5\" { formula Xx }\n", "" },
    { "compound q { formula Xx; wobbly }\n", "misplaced" },
    { "compound table salt { formula Xx }\n", "duplicate-name" },
    { "compound table salt { instead of the library's; formula Xx }\n", "" },
    { "compound q { formula Xx }\ncompound q { formula Xx }\n", "duplicate-name" },
    { "compound { formula Xx }\n", "name-too-long" },
    { "blend q { 90% table salt }\n", "blend-sum" },
    { "blend q { 60% table salt; 50% sugar }\n", "blend-sum" },
    { "blend q { 60% to 70% table salt; 10% to 20% sugar }\n", "blend-sum" },
    { "blend q { 60% to 70% table salt; 50% to 60% sugar }\n", "blend-sum" },
    { "blend q { 99.98% table salt }\n", "blend-sum" },
    { "blend q { 99.991% table salt }\n", "" },
    { "blend q { }\n", "blend-sum" },
    { "blend q { 50% table salt; 50% nowhere }\n", "unknown-food" },
    { "blend q { 50% table salt; 50% q }\n", "blend-itself" },
    { "blend q { also r s; 50% table salt; 50% s r }\n", "blend-itself" },
    { "blend q { 50% table salt; 50% p }\nblend p { 100% table salt }\n", "unknown-food" },
    { "blend p { 100% table salt }\nblend q { 50% table salt; 50% p }\n", "" },
    { "blend q { 50 g table salt; 50% sugar }\n", "blend-share" },
    { "blend q { some table salt; 50% sugar }\n", "blend-share" },
    { "blend q { 0% table salt; 100% sugar }\n", "blend-share" },
    { "blend q { 50% table salt, dried; 50% sugar }\n", "extra-words" },
    { "blend q { 50% table salt; 50% sugar; per 100 g { sodium 1 g } }\n", "computed-figure" },
    { "blend q { 50% table salt; 50% }\n", "syntax" },
    { "blend q 7 { 100% table salt }\n", "extra-words" },
    { "element q { symbol Qq }\n", "bad-element" },
    { "element q { weight 5 }\n", "bad-element" },
    { "element q { symbol qq; weight 5 }\n", "bad-element" },
    { "element q { symbol Qqqq; weight 5 }\n", "bad-element" },
    { "element q { symbol Qq; weight 0 }\n", "bad-element" },
    { "element q { symbol Qq; weight 401 }\n", "bad-element" },
    { "element q { symbol Qq; weight 5 g }\n", "bad-element" },
    { "element q { symbol Qq; weight 5% }\n", "bad-element" },
    { "element q { symbol Qq; weight 400; counts as sodium }\n", "" },
    { "element q { symbol Qq; weight 5; counts as salt }\n", "unknown-nutrient" },
    { "element q { symbol Qq; weight 5; counts as energy }\n", "wrong-unit" },
    { "element q { symbol Qq; weight 5; also r }\n", "misplaced" },
    { "element q { symbol Na; weight 5 }\n", "duplicate-name" },
    { "element q { symbol Xx; weight 5 }\n", "duplicate-name" },
    { "element xenium { symbol Qq; weight 5 }\n", "duplicate-name" },
};

START_TEST(what_is_wrong_is_told_once)
{
    char text[4096];
    snprintf(text, sizeof text, "%s%s", ELEMENTS, wrong[_i].text);
    expect_codes(text, wrong[_i].codes);
}
END_TEST

/* ---- memory */

START_TEST(compiling_mixtures_without_memory_ends_well)
{
    static const char text[] = "nutrient sodium { unit mg; traced }\nunit gram { mass 1 g; also g }\n"
                               "unit milligram { mass 0.001 g; also mg }\n"
                               "element xenium { symbol Xx; weight 30; counts as sodium }\n"
                               "food varied { per 100 g { sodium 1000 mg }; measured sodium 9 samples { lowest 800 mg } }\n"
                               "compound q { formula Xx; purity 99% }\nblend p { 50% q; 50% varied }\n";
    struct declaration declarations[16];
    struct parsed parsed;
    uint32_t count = 0;
    parsed_open(&parsed, text, strlen(text));
    for (struct node *node = parsed.first, *next; node; node = next, count++) {
        next = node->next;
        node->next = NULL;
        declarations[count] = (struct declaration){ .node = node, .text = parsed.parse.text, .next = &declarations[count + 1] };
    }
    declarations[count - 1].next = NULL;
    enum status status = STATUS_NO_MEMORY;
    for (long left = 0; status != STATUS_OK; left++) {
        struct budget budget = { .left = left };
        void *pack;
        size_t size;
        uint32_t told = parsed.findings.count;
        ck_assert_int_lt(left, 10000);
        status = library_compile(budget_allocator(&budget), declarations, NULL, NULL, NULL, &parsed.findings, &pack, &size);
        ck_assert(status == STATUS_OK ? pack_verify(pack, size, NULL) == PACK_SOUND : status == STATUS_NO_MEMORY && !pack);
        if (pack)
            budget_resize(&budget, pack, 0);
        ck_assert_int_eq(budget.live, 0);
        ck_assert(status != STATUS_OK || parsed.findings.count == told);
    }
    parsed_close(&parsed);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("compound");
    TCase *reading = tcase_create("formulas"), *mixing = tcase_create("mixtures");
    tcase_set_timeout(mixing, 60);
    tcase_add_loop_test(reading, a_formula_says_what_of_its_mass_is_what, 0, COUNT_OF(formulas));
    tcase_add_loop_test(reading, trouble_of_a_formula_is_told_with_its_place, 0, COUNT_OF(troubles));
    tcase_add_loop_test(mixing, compounds_and_blends_hold_what_follows_from_them, 0, COUNT_OF(mixtures));
    tcase_add_test(mixing, what_no_element_counts_as_is_unknown_unless_it_is_said);
    tcase_add_test(mixing, a_blend_is_unknown_where_a_part_of_it_is);
    tcase_add_test(mixing, sodium_of_mixtures_is_the_cooks_where_their_group_says_so);
    tcase_add_test(mixing, mixtures_have_portions_and_further_names_as_foods_do);
    tcase_add_test(mixing, a_share_that_a_recipe_has_said_before_is_read);
    tcase_add_test(mixing, knowledge_behind_a_long_recipe_is_read);
    tcase_add_test(mixing, a_blend_varies_as_its_parts_do);
    tcase_add_loop_test(mixing, what_is_wrong_is_told_once, 0, COUNT_OF(wrong));
    tcase_add_test(mixing, compiling_mixtures_without_memory_ends_well);
    suite_add_tcase(suite, reading);
    suite_add_tcase(suite, mixing);
    return suite_run(suite);
}
