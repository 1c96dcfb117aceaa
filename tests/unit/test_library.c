/* library: names, near names, packs, rounding. The figures of rounding stand in docs/language.md ("Labels"). */
#include "unit/support.h"

#include <fcntl.h>
#include <math.h>
#include <stdlib.h>
#include <unistd.h>

#include "library/library.h"
#include "library/pack.h"
#include "model/model.h"

#ifdef QUERN_SMALL
#define KNOWLEDGE_STEP 70               /* of the numbers in a text: it runs with sanitizers */
#else
#define KNOWLEDGE_STEP 7
#endif

extern const unsigned char quern_stdlib_pack[], quern_stdlib_pack_end[];

static struct library stdlib_view(void)
{
    struct library library;
    library_view(&library, quern_stdlib_pack, NULL);
    return library;
}

static struct text key_of(const char *name, char *key)
{
    return (struct text){ key, name_key_of(text_of(name), false, key) };
}

/* ---- ranges */

static void expect_order(struct range range, struct text name, const char *what, uint32_t number)
{
    ck_assert_msg(range.low >= 0 && range.low <= range.best && range.best <= range.high, "%.*s, %s %u: %g (%g to %g)", (int)name.length,
                  name.bytes, what, number, range.best, range.low, range.high);
}

/* At best the origins sum to the whole. No end of them together is nearer than its end. */
static void expect_origins(const struct library *library, const struct range *row, struct text name, const char *which)
{
    struct range whole = row[library->traced], sum = { 0, 0, 0 };
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++)
        sum = range_add(sum, row[library->origin_column + i]);
    ck_assert_msg(amount_compare(sum.best, whole.best) == 0 && amount_compare(sum.low, whole.low) <= 0 && amount_compare(sum.high, whole.high) >= 0,
                  "%.*s, %s: %g (%g to %g) of %g (%g to %g)", (int)name.length, name.bytes, which, sum.best, sum.low, sum.high, whole.best, whole.low, whole.high);
}

static uint32_t expect_row(const struct library *library, const struct food *food, uint32_t first, const char *which)
{
    uint32_t known = 0;
    struct text name = library_text(library, food->name);
    for (uint32_t i = 0; i < library->column_count; i++) {
        known += food->known >> i & 1;
        expect_order(library->values[first + i], name, which, i);
    }
    if (food->known >> library->traced & 1)
        expect_origins(library, library->values + first, name, which);
    return known;
}

START_TEST(ends_stand_in_order_in_all_foods_columns_and_origins)
{
    struct library library = stdlib_view();
    uint32_t known = 0, parted = 0;
    for (uint32_t i = 0; i < library.foods_count; i++) {
        const struct food *food = &library.foods[i];
        const struct range *row = library.values + food->values;
        struct text name = library_text(&library, food->name);
        known += expect_row(&library, food, food->values, "column");
        expect_row(&library, food, food->varied, "varied column");
        expect_row(&library, food, food->tolerated, "tolerated column");
        parted += row[library.origin_column + ORIGIN_INHERENT].high > 0 && row[library.origin_column + ORIGIN_MAKER].high > 0;
        expect_order(food->density, name, "density", 0);
        for (uint32_t j = 0; j < food->portion_count; j++)
            expect_order(library.portions[food->first_portion + j].grams, name, "portion", j);
    }
    ck_assert_uint_gt(known, 10000);
    ck_assert_uint_gt(parted, 32);          /* foods with a part of their own and one of their maker's */
}
END_TEST

START_TEST(ends_stand_in_order_in_all_treatments_and_units)
{
    struct library library = stdlib_view();
    for (uint32_t i = 0; i < library.treatments_count; i++) {
        const struct treatment *treatment = &library.treatments[i];
        struct text name = library_text(&library, treatment->name);
        expect_order(treatment->mass, name, "mass", 0);
        expect_order(treatment->kept, name, "kept", 0);
        ck_assert_msg(range_in_order(treatment->uptake), "%.*s, uptake", (int)name.length, name.bytes);    /* given off: below 0 */
        for (uint32_t j = 0; j < treatment->effect_count; j++)
            expect_order(library.effects[treatment->first_effect + j].share, name, "effect", j);
    }
    for (uint32_t i = 0; i < library.units_count; i++)
        expect_order(library.units[i].factor, library_text(&library, library.units[i].name), "unit", 0);
    for (uint32_t i = 0; i < library.groups_count; i++)
        expect_order(library.groups[i].unmeasured_ml, library_text(&library, library.groups[i].name), "unmeasured", 0);
}
END_TEST

/* ---- names */

static const struct {
    const char *one, *other;
    bool same;
} names[] = {
    { "kidney beans canned", "canned kidney beans", true },
    { "kidney beans canned", "Canned Kidney Bean", true },
    { "jalape\xc3\xb1o peppers", "Jalapeno pepper", true },
    { "cream of tartar", "tartar cream", true },
    { "all-purpose flour", "all purpose flour", true },
    { "baker's yeast", "bakers yeast", true },
    { "baker\xe2\x80\x99s yeast", "bakers yeast", true },
    { "cherries", "cherry", true },
    { "cookies", "cookie", true },
    { "tomatoes", "tomato", true },
    { "potatoes", "Potato", true },
    { "radishes", "radish", true },
    { "peaches", "peach", true },
    { "boxes", "box", true },
    { "loaves", "loaf", true },
    { "leaves", "leaf", true },
    { "halves", "half", true },
    { "berries", "berry", true },
    { "anchovies", "anchovy", true },
    { "onions", "onion", true },
    { "peas", "pea", true },
    { "olives", "olive", true },
    { "chives", "chive", true },
    { "glasses", "glass", true },
    { "cloves", "clove", true },
    { "pies", "pie", true },
    { "asparagus", "asparagu", false },
    { "couscous", "couscou", false },
    { "hummus", "humm", false },
    { "molasses", "mola", false },
    { "swiss", "swi", false },
    { "white beans", "black beans", false },
    { "salted butter", "unsalted butter", false },
    { "milk", "milk powder", false },
    { "beans beans", "beans", true },               /* a set: each word once */
    { "80/20 ground beef", "90/10 ground beef", false },
    { "2% milk", "1% milk", false },
    { "2% milk", "milk 2%", true },
};

START_TEST(names_are_sets_of_folded_singular_words)
{
    char one_bytes[KEY_BYTES], other_bytes[KEY_BYTES];
    struct text one = key_of(names[_i].one, one_bytes), other = key_of(names[_i].other, other_bytes);
    ck_assert_uint_gt(one.length, 0);
    ck_assert_msg(text_equal(one, other) == names[_i].same, "`%s` is `%.*s`, `%s` is `%.*s`", names[_i].one,
                  (int)one.length, one.bytes, names[_i].other, (int)other.length, other.bytes);
}
END_TEST

START_TEST(in_written_order_the_order_counts)
{
    char one[KEY_BYTES], other[KEY_BYTES], set[KEY_BYTES];
    uint32_t one_length = name_key_of(text_of("milk chocolate"), true, one);
    uint32_t other_length = name_key_of(text_of("chocolate milk"), true, other);
    uint32_t set_length = name_key_of(text_of("chocolate milk"), false, set);
    ck_assert(!text_equal((struct text){ one, one_length }, (struct text){ other, other_length }));
    ck_assert(!text_equal((struct text){ set, set_length }, (struct text){ other, other_length }));
}
END_TEST

START_TEST(a_name_without_words_or_with_too_many_has_no_key)
{
    char key[KEY_BYTES], long_name[4096] = "";
    ck_assert_uint_eq(name_key_of(text_of(""), false, key), 0);
    ck_assert_uint_eq(name_key_of(text_of(" - "), false, key), 0);
    for (uint32_t i = 0; i < LIMIT_NAME_WORDS; i++)
        sprintf(long_name + strlen(long_name), "w%ub ", i);
    ck_assert_uint_gt(name_key_of(text_of(long_name), false, key), 0);
    strcat(long_name, "more");
    ck_assert_uint_eq(name_key_of(text_of(long_name), false, key), 0);
    memset(long_name, 'x', sizeof long_name - 1);
    long_name[sizeof long_name - 1] = '\0';
    ck_assert_uint_eq(name_key_of(text_of(long_name), false, key), 0);
}
END_TEST

/* No food is unreachable, and each is found under its own name. */
START_TEST(every_name_of_the_library_finds_what_it_names)
{
    struct library library = stdlib_view();
    ck_assert_uint_gt(library.foods_count, 100);
    for (uint32_t i = 0; i < library.names_count; i++) {
        const struct name *name = &library.names[i], *found = NULL;
        struct text key = library_text(&library, name->key);
        do
            found = library_find(&library, name->space, key, found);
        while (found && found != name);
        ck_assert_msg(found == name, "`%.*s` is not found", (int)key.length, key.bytes);
    }
}
END_TEST

/* ---- near names */

static const struct {
    const char *written, *offered;      /* the first offer, or NULL where none of the name in `never` may come */
    const char *never;
} typos[] = {
    { "whit beans canned", "canned white beans", NULL },
    { "chikpeas canned", "canned chickpeas", NULL },
    { "oilve oil", "olive oil", NULL },
    { "galric", "garlic", NULL },
    { "onoin", "onion", NULL },
    { "spinich", "spinach", NULL },
    { "carots", "carrot", NULL },
    { "brocoli", "broccoli", NULL },
    { "zuccini", "zucchini", NULL },
    { "parsely", "parsley", NULL },
    { "xylophone", NULL, "" },
    { "qqq", NULL, "" },
    { "mint", NULL, "milk" },
    { "kale", NULL, "ale" },
    { "bean", NULL, "beer" },
};

START_TEST(slips_are_offered_and_other_foods_are_not)
{
    struct library library = stdlib_view();
    struct near_name near[5];
    char wanted[KEY_BYTES], found[KEY_BYTES];
    uint32_t count = library_near(&library, 1u << SPACE_FOOD, text_of(typos[_i].written), near, COUNT_OF(near));
    ck_assert_uint_le(count, COUNT_OF(near));
    for (uint32_t i = 0; i < count; i++) {
        struct text name = library_text(near[i].library, near[i].name->key);
        if (typos[_i].never)
            ck_assert_msg(*typos[_i].never && !text_equal(name, key_of(typos[_i].never, wanted)), "%s offers %.*s",
                          typos[_i].written, (int)name.length, name.bytes);
        ck_assert(i == 0 || near[i].score <= near[i - 1].score);
    }
    if (!typos[_i].offered)
        return;
    ck_assert_msg(count > 0, "%s: nothing is offered", typos[_i].written);
    struct text written = library_text(near[0].library, near[0].name->written);
    struct text best = { found, name_key_of(written, false, found) };
    ck_assert_msg(text_equal(best, key_of(typos[_i].offered, wanted)), "%s offers %.*s first", typos[_i].written,
                  (int)written.length, written.bytes);
}
END_TEST

/* ---- packs */

static const char knowledge[] =
    "nutrient energy { unit kcal }\n"
    "nutrient sodium { unit mg; also Na; mole 22.990 mg; charge 1; traced }\n"
    "nutrient potassium { unit mg }\n"
    "unit gram { mass 1 g; also g }\n"
    "unit milligram { mass 0.001 g; also mg }\n"
    "unit kilocalorie { energy 1 kcal; also kcal }\n"
    "unit teaspoon { volume 4.92892159375 ml; also tsp }\n"
    "unit can { package; state canned }\n"
    "group vegetables\n"
    "group canned legumes { within vegetables }\n"
    "group salts { origin cook-added }\n"
    "element sodium { symbol Na; weight 22.990; counts as sodium }\n"
    "element chlorine { symbol Cl; weight 35.45 }\n"
    "compound mill halite { formula NaCl; purity 98% to 100%; group salts; 1 tsp = 6 g; source \"made up\" }\n"
    "blend mill mix { 60% mill halite; 40% mill salt; group salts; source \"made up\" }\n"
    "food mill salt { group salts; per 100 g { energy 0 kcal; sodium 40000 mg; potassium 0 mg }; 1 tsp = 6 g (5 g to 7 g); source \"made up\" }\n"
    "food mill beans canned { also garden beans; group canned legumes; as whole can; per 100 g { energy 80 kcal; sodium 300 mg }; 1 can = 400 g; source \"made up\" }\n"
    "shelf butter { mill salt; garden beans }\n"
    "treatment drained { for canned legumes; from canned; keeps sodium 50% (40% to 60%); mass 60%; keeps others 50%; evidence measured; source \"made up\" }\n"
    "treatment chopped { also diced; changes nothing }\n"
    "rules us { title \"Test\"\n rounding sodium { zero under 5 mg; step 5 mg up to 140 mg; step 10 mg; source \"made up\" }\n"
    " daily value sodium 2300 mg \"made up\"\n percent sodium { step 1% }\n equivalent sodium \"mill salt\" \"tsp\"\n"
    " caution \"Take care.\" { for sodium; source \"made up\" }\n}\n";

struct compiled {
    struct parsed parsed;
    struct findings findings;
    void *pack;
    size_t size;
};

static void compile(struct compiled *compiled, const char *text)
{
    static struct declaration declarations[64];
    uint32_t count = 0;
    parsed_open(&compiled->parsed, text, strlen(text));
    ck_assert_uint_eq(compiled->parsed.findings.count, 0);
    for (struct node *node = compiled->parsed.first; node; node = node->next, count++) {
        ck_assert(library_takes(compiled->parsed.parse.text, node));
        declarations[count] = (struct declaration){ .node = node, .text = compiled->parsed.parse.text, .next = &declarations[count + 1] };
    }
    declarations[count - 1].next = NULL;
    for (uint32_t i = 0; i < count; i++)
        declarations[i].node->next = NULL;
    ck_assert_int_eq(library_compile(allocator_standard(), declarations, NULL, NULL, NULL, &compiled->parsed.findings,
                                     &compiled->pack, &compiled->size), STATUS_OK);
    char codes[1024];
    findings_list(&compiled->parsed.findings, codes, sizeof codes);
    ck_assert_str_eq(codes, "");
}

static void compiled_close(struct compiled *compiled)
{
    free(compiled->pack);
    parsed_close(&compiled->parsed);
}

START_TEST(a_pack_that_was_compiled_verifies)
{
    struct compiled compiled;
    compile(&compiled, knowledge);
    ck_assert_int_eq(pack_verify(compiled.pack, compiled.size, NULL), PACK_SOUND);
    compiled_close(&compiled);
    size_t size = (size_t)(quern_stdlib_pack_end - quern_stdlib_pack);
    ck_assert_int_eq(pack_verify(quern_stdlib_pack, size, NULL), PACK_SOUND);
}
END_TEST

START_TEST(the_same_declarations_give_the_same_bytes)
{
    struct compiled one, other;
    compile(&one, knowledge);
    compile(&other, knowledge);
    ck_assert_uint_eq(one.size, other.size);
    ck_assert_mem_eq(one.pack, other.pack, one.size);
    compiled_close(&one);
    compiled_close(&other);
}
END_TEST

/* A pack may not end in a block that is larger than it: malloc gives exactly its size, so that reads past it show. */
static enum pack_trouble verify_copy(const void *bytes, size_t size)
{
    void *copy = malloc(size ? size : 1);
    memcpy(copy, bytes, size);
    enum pack_trouble trouble = pack_verify(copy, size, NULL);
    free(copy);
    return trouble;
}

START_TEST(a_truncated_pack_is_refused)
{
    struct compiled compiled;
    compile(&compiled, knowledge);
    for (size_t size = 0; size < compiled.size; size++)
        ck_assert_int_ne(verify_copy(compiled.pack, size), PACK_SOUND);
    compiled_close(&compiled);
}
END_TEST

START_TEST(any_changed_byte_is_noticed)
{
    struct compiled compiled;
    compile(&compiled, knowledge);
    unsigned char *bytes = compiled.pack;
    for (size_t at = 0; at < compiled.size; at++) {
        unsigned char before = bytes[at];
        bytes[at] ^= (unsigned char)(1 + at * 37 % 255);
        ck_assert_msg(verify_copy(bytes, compiled.size) != PACK_SOUND, "byte %zu", at);
        bytes[at] = before;
    }
    compiled_close(&compiled);
}
END_TEST

START_TEST(a_pack_of_another_version_or_byte_order_is_refused)
{
    struct compiled compiled;
    compile(&compiled, knowledge);
    struct pack_header *header = compiled.pack;
    header->version++;
    ck_assert_int_eq(pack_verify(compiled.pack, compiled.size, NULL), PACK_OTHER_VERSION);
    header->version--;
    header->byte_order = 0x04030201;
    ck_assert_int_eq(pack_verify(compiled.pack, compiled.size, NULL), PACK_OTHER_MACHINE);
    header->byte_order = PACK_BYTE_ORDER;
    ck_assert_int_eq(pack_verify(compiled.pack, compiled.size, NULL), PACK_SOUND);
    compiled_close(&compiled);
}
END_TEST

/* ---- figures that the language would not have let in, in packs whose checksums are right */

enum forged_kind { FORGED_AMOUNT, FORGED_FACTOR, FORGED_END, FORGED_UNSAID, FORGED_SIGNED, FORGED_FLAG };

static const struct forged_field {
    const char *name;
    size_t section, count, member;      /* section, count: places in struct library */
    enum forged_kind kind;
} forged_fields[] = {
#define FORGE(kind, section, type, member) { #section " " #member, offsetof(struct library, section), offsetof(struct library, section##_count), offsetof(struct type, member), FORGED_##kind },
#define FORGE_RANGE(kind, section, type, member) FORGE(kind, section, type, member.low) FORGE(kind, section, type, member.best) FORGE(kind, section, type, member.high)
    FORGE(FACTOR, nutrients, nutrient, unit_factor) FORGE(AMOUNT, nutrients, nutrient, mole) FORGE(AMOUNT, nutrients, nutrient, charge)
    FORGE(FLAG, nutrients, nutrient, traced) FORGE(FLAG, nutrients, nutrient, role)
    FORGE_RANGE(AMOUNT, units, unit, factor) FORGE(FLAG, units, unit, dimension) FORGE(FLAG, units, unit, flags)
    FORGE(FACTOR, package_sizes, package_size, amount) FORGE(FLAG, package_sizes, package_size, dimension)
    FORGE_RANGE(AMOUNT, groups, group, unmeasured_ml) FORGE(FLAG, groups, group, origin) FORGE(FLAG, groups, group, fresh) FORGE(FLAG, groups, group, uses)
    FORGE(FACTOR, elements, element, weight) FORGE(FLAG, elements, element, nutrient)
    FORGE(FLAG, foods, food, state) FORGE(FLAG, foods, food, basis) FORGE(FLAG, foods, food, flags)
    FORGE(FLAG, foods, food, group) FORGE(FLAG, foods, food, known) FORGE(FLAG, foods, food, open)
    FORGE_RANGE(AMOUNT, foods, food, density) FORGE_RANGE(AMOUNT, foods, food, unmeasured_ml) FORGE_RANGE(AMOUNT, foods, food, serving_grams)
    FORGE_RANGE(AMOUNT, foods, food, serving_ml) FORGE_RANGE(AMOUNT, foods, food, servings) FORGE_RANGE(UNSAID, foods, food, refuse) FORGE(FLAG, foods, food, refuse_kind)
    FORGE_RANGE(FACTOR, portions, portion, grams) FORGE(AMOUNT, portions, portion, volume_ml)
    FORGE(AMOUNT, values, range, low) FORGE(AMOUNT, values, range, best) FORGE(AMOUNT, values, range, high)
    FORGE(FLAG, spreads, spread, nutrient) FORGE(UNSAID, spreads, spread, error) FORGE(UNSAID, spreads, spread, lowest) FORGE(UNSAID, spreads, spread, highest)
    FORGE(FLAG, treatments, treatment, from) FORGE(FLAG, treatments, treatment, flags) FORGE(FLAG, treatments, treatment, evidence)
    FORGE(FLAG, treatments, treatment, step_count)
    FORGE_RANGE(AMOUNT, treatments, treatment, mass) FORGE_RANGE(AMOUNT, treatments, treatment, kept) FORGE_RANGE(SIGNED, treatments, treatment, uptake)
    FORGE(FLAG, effects, effect, kind) FORGE_RANGE(AMOUNT, effects, effect, share)
    FORGE(AMOUNT, rules, rules, yield_within) FORGE(AMOUNT, rules, rules, yield_least) FORGE(AMOUNT, rules, rules, converted_factor)
    FORGE(FLAG, roundings, rounding, zero_is_mandatory) FORGE(FLAG, roundings, rounding, finer) FORGE(FLAG, roundings, rounding, is_percent) FORGE(FLAG, roundings, rounding, zero_includes)
    FORGE(AMOUNT, roundings, rounding, zero_under) FORGE(AMOUNT, roundings, rounding, less_than) FORGE(AMOUNT, roundings, rounding, small)
    FORGE(FACTOR, bands, band, step) FORGE(END, bands, band, up_to)
    FORGE(FACTOR, daily_values, daily_value, amount)
    FORGE(FLAG, equivalents, equivalent, nutrient) FORGE(FLAG, cautions, caution, nutrient) FORGE(FLAG, cautions, caution, comes_first)
    FORGE(FLAG, whens, when, kind) FORGE(AMOUNT, whens, when, amount) FORGE(FLAG, whens, when, nutrient) FORGE(FLAG, intakes, intake, only)
    FORGE(FLAG, panel_lines, panel_line, depth) FORGE(FLAG, panel_lines, panel_line, flags)
    FORGE(FLAG, persons, person, sexes) FORGE(FLAG, persons, person, needs_age) FORGE(FLAG, persons, person, of_policies)
    FORGE(AMOUNT, persons, person, low) FORGE(END, persons, person, high) FORGE(AMOUNT, persons, person, usual_low) FORGE(END, persons, person, usual_high)
    FORGE(FLAG, intake_figures, intake_figure, kind) FORGE(FLAG, intake_figures, intake_figure, sexes) FORGE(FLAG, intake_figures, intake_figure, strict)
    FORGE(FLAG, intake_figures, intake_figure, is_goal) FORGE(FLAG, intake_figures, intake_figure, shown_only)
    FORGE(AMOUNT, intake_figures, intake_figure, low) FORGE(END, intake_figures, intake_figure, high) FORGE(FACTOR, intake_figures, intake_figure, amount)
    FORGE(AMOUNT, label_checks, label_check, within)
    FORGE(AMOUNT, check_parts, check_part, least) FORGE(AMOUNT, check_parts, check_part, most) FORGE(FLAG, check_parts, check_part, if_printed)
    FORGE(END, tolerance_bands, tolerance_band, under) FORGE(AMOUNT, tolerance_bands, tolerance_band, low)
    FORGE(AMOUNT, tolerance_bands, tolerance_band, high) FORGE(AMOUNT, tolerance_bands, tolerance_band, within)
    FORGE(FACTOR, measures, household_measure, ml)
    FORGE(FLAG, claim_kinds, claim_kind, is_usual) FORGE(AMOUNT, claim_kinds, claim_kind, grams) FORGE(AMOUNT, claim_kinds, claim_kind, ml)
    FORGE(AMOUNT, claim_kinds, claim_kind, serving_grams) FORGE(AMOUNT, claim_kinds, claim_kind, serving_ml)
    FORGE(AMOUNT, claim_kinds, claim_kind, least_serving_grams) FORGE(AMOUNT, claim_kinds, claim_kind, least_reference_grams)
    FORGE(AMOUNT, claim_kinds, claim_kind, portion_grams) FORGE(FLAG, portion_classes, portion_class, counts)
    FORGE(FLAG, conditions, condition, kind) FORGE(FLAG, conditions, condition, flags) FORGE(FLAG, conditions, condition, basis)
    FORGE(AMOUNT, conditions, condition, most) FORGE(AMOUNT, conditions, condition, least) FORGE(AMOUNT, conditions, condition, per)
    FORGE(AMOUNT, reference_amounts, reference_amount, grams) FORGE(AMOUNT, reference_amounts, reference_amount, ml)
};

/* What no field of the kind may be; NaN, which ends no list, comes last. */
static uint32_t forged_figures(enum forged_kind kind, double *figures)
{
    uint32_t count = 0;
    figures[count++] = -INFINITY;
    figures[count++] = -5;
    if (kind != FORGED_END)
        figures[count++] = INFINITY;
    if (kind != FORGED_END && kind != FORGED_SIGNED)
        figures[count++] = -0.0;
    if (kind == FORGED_FACTOR || kind == FORGED_END)
        figures[count++] = 0;
    figures[count++] = (double)NAN;
    return count;
}

static void expect_forged_refused(unsigned char *pack, size_t size, unsigned char *field, const struct forged_field *what, const void *value, size_t length)
{
    unsigned char before[8];
    memcpy(before, field, length);
    memcpy(field, value, length);
    pack_seal(pack, NULL);
    ck_assert_msg(pack_verify(pack, size, NULL) == PACK_DAMAGED, "%s as %g", what->name, length == 8 ? *(const double *)value : *(const uint32_t *)value);
    memcpy(field, before, length);
}

/* The pack of the library has records of every kind; each figure is forged in the first that has one. */
START_TEST(a_forged_figure_is_refused)
{
    const struct forged_field *what = &forged_fields[_i];
    size_t size = (size_t)(quern_stdlib_pack_end - quern_stdlib_pack);
    unsigned char *pack = malloc(size);
    struct library library;
    ck_assert_ptr_nonnull(pack);
    memcpy(pack, quern_stdlib_pack, size);
    library_view(&library, pack, NULL);
    const unsigned char *items = *(unsigned char *const *)(const void *)((const unsigned char *)&library + what->section);
    unsigned char *field = pack + (items - pack) + what->member;
    ck_assert_uint_gt(*(const uint32_t *)(const void *)((const unsigned char *)&library + what->count), 0);
    if (what->kind == FORGED_FLAG) {
        uint32_t flag = 0x40000000;             /* of no enumeration, and none of the bits */
        expect_forged_refused(pack, size, field + (strcmp(what->name, "foods known") == 0 || strcmp(what->name, "foods open") == 0 ? 4 : 0), what, &flag, sizeof flag);
    } else {
        double figures[8];
        uint32_t count = forged_figures(what->kind, figures);
        for (uint32_t i = 0; i < count; i++)
            expect_forged_refused(pack, size, field, what, &figures[i], sizeof figures[i]);
    }
    pack_seal(pack, NULL);
    ck_assert_int_eq(pack_verify(pack, size, NULL), PACK_SOUND);
    free(pack);
}
END_TEST

/* Ends out of order are no figure either, though each by itself is one. */
START_TEST(a_forged_order_of_ends_is_refused)
{
    size_t size = (size_t)(quern_stdlib_pack_end - quern_stdlib_pack);
    unsigned char *pack = malloc(size);
    struct library library;
    ck_assert_ptr_nonnull(pack);
    memcpy(pack, quern_stdlib_pack, size);
    library_view(&library, pack, NULL);
    const struct range *const ranges[] = {
        &library.units->factor, &library.groups->unmeasured_ml, &library.foods->density, &library.foods->servings, &library.portions->grams,
        library.values, &library.treatments->mass, &library.treatments->uptake, &library.effects->share,
    };
    for (uint32_t i = 0; i < COUNT_OF(ranges); i++) {
        struct range *range = (struct range *)(void *)(pack + ((const unsigned char *)ranges[i] - pack)), before = *range;
        *range = (struct range){ 3, 2, 1 };
        pack_seal(pack, NULL);
        ck_assert_msg(pack_verify(pack, size, NULL) == PACK_DAMAGED, "range %u", i);
        *range = before;
    }
    pack_seal(pack, NULL);
    ck_assert_int_eq(pack_verify(pack, size, NULL), PACK_SOUND);
    free(pack);
}
END_TEST

/* ---- numbers that the reader refused */

static const char *const written_knowledge[] = {
    "stdlib/nutrients.quern", "stdlib/groups.quern", "stdlib/elements.quern", "stdlib/intakes/people.quern", "stdlib/intakes/dri-2019.quern",
    "stdlib/intakes/who-2012.quern", "stdlib/treatments/baths.quern", "stdlib/treatments/boiling.quern",
    "stdlib/rules/us.quern", "stdlib/rules/eu.quern", "stdlib/foods/additives.quern", "stdlib/foods/salts.quern",
};

/* What a kitchen declares goes into a pack of its own without being looked at again: it may only hold what a pack from
 * elsewhere may. Each number of the text in turn is one that is no number. */
static uint32_t expect_sound_without(const char *text, size_t length, const char *path, const struct library *stdlib, char *changed)
{
    uint32_t tried = 0;
    for (size_t at = 1; at < length; at++) {
        bool starts = text[at] >= '0' && text[at] <= '9' && strchr(" (\n", text[at - 1]);
        if (!starts || tried++ % KNOWLEDGE_STEP != 0)
            continue;
        size_t end = at + strspn(text + at, "0123456789.");
        memcpy(changed, text, at);
        memcpy(changed + at, "1/0", 3);
        memcpy(changed + at + 3, text + end, length - end);
        struct kitchen kitchen;
        kitchen_open(&kitchen, allocator_standard(), stdlib, 1);
        ck_assert(kitchen_add_file(&kitchen, path, true, false));
        ck_assert_int_eq(kitchen_read(&kitchen, (struct text){ changed, (uint32_t)(length - (end - at) + 3) }), STATUS_OK);
        ck_assert_int_eq(kitchen_link(&kitchen), STATUS_OK);
        const struct pack_header *pack = kitchen.local_pack;
        ck_assert_msg(!pack || pack_verify(pack, pack->size, stdlib) == PACK_SOUND, "%s, byte %zu: %.40s", path, at, text + at - 20);
        kitchen_close(&kitchen);
    }
    return tried;
}

START_TEST(a_refused_number_gets_into_no_pack)
{
    const char *path = written_knowledge[_i];
    struct library stdlib = stdlib_view();
    struct buffer text;
    buffer_open(&text, allocator_standard());
    ck_assert_msg(file_read(AT_FDCWD, path, LIMIT_FILE_BYTES, &text) == STATUS_OK, "%s: run this in the project's folder", path);
    char *changed = malloc(text.length + 8);
    ck_assert_ptr_nonnull(changed);
    ck_assert_uint_gt(expect_sound_without(text.bytes, text.length, path, &stdlib, changed), 0);
    free(changed);
    buffer_close(&text);
}
END_TEST

static const char kitchen[] =
    "recipe \"A\" {\n serves 2\n 2 cans garden beans, drained\n 1 tsp mill salt, diced\n 1 butter\n 3 tsp mill slat\n 1 cup chopped leeks, boiled\n"
    " some mill salt\n limit sodium at most 500 mg per serving\n goal potassium at least 3 mg per serving\n}\n"
    "food leek { group vegetables; per 100 g { sodium 3 mg }; source \"made up\" }\n"
    "label \"Broth\" { serving 1 tsp; sodium 140 mg }\n";

/* The damage is made to look whole (the checksum is set right), so only the checks of each number stand between
 * it and the reads. Whatever passes must be usable without harm, though it may mean nonsense. */
START_TEST(a_forged_pack_is_refused_or_harmless)
{
    char folder[256], path[300], text_path[300];
    struct compiled compiled;
    unsigned refused = 0, used = 0;
    compile(&compiled, knowledge);
    folder_make(folder, sizeof folder);
    snprintf(path, sizeof path, "%s/pack", folder);
    snprintf(text_path, sizeof text_path, "%s/kitchen.quern", folder);
    file_write(folder, "kitchen.quern", kitchen, sizeof kitchen - 1);
    unsigned char *bytes = compiled.pack;
    struct pack_header *header = compiled.pack;
    static const unsigned char flips[] = { 0x01, 0x80, 0xff, 0x10 };
    for (size_t at = offsetof(struct pack_header, sections) + (size_t)_i; at < compiled.size; at += 4) {
        unsigned char before = bytes[at];
        bytes[at] ^= flips[(at / 4) % sizeof flips];
        if (at >= sizeof *header)
            pack_seal(compiled.pack, NULL);
        else
            header->checksum = pack_checksum(compiled.pack, compiled.size);
        if (verify_copy(compiled.pack, compiled.size) == PACK_SOUND) {
            const char *paths[] = { text_path };
            struct quern_options options = { .library_path = path };
            struct buffer out;
            file_write(folder, "pack", compiled.pack, compiled.size);
            struct quern_session *session = quern_open(&options);
            buffer_open(&out, allocator_standard());
            quern_report(session, paths, 1, NULL, _i % 2 ? QUERN_AS_TEXT : QUERN_AS_JSON, sink_buffer, &out);
            quern_lookup(session, &(struct quern_lookup){ .words = "mill slat", .lowest = "sodium" }, sink_buffer, &out);
            quern_lookup(session, &(struct quern_lookup){ .words = "garden beans", .kitchen = text_path }, sink_buffer, &out);
            buffer_close(&out);
            quern_close(session);
            used++;
        } else {
            refused++;
        }
        bytes[at] = before;
    }
    ck_assert_uint_gt(refused, 100);
    ck_assert_uint_gt(used, 100);
    folder_remove(folder);
    compiled_close(&compiled);
}
END_TEST

/* The same for a pack that a kitchen uses: it is mapped, and only its head and the foods that are found are looked at. */
START_TEST(a_forged_pack_in_use_is_refused_or_harmless)
{
    static const char shop[] =
        "food garden bean { group condiments; per 100 g { sodium 200 mg; potassium 10 mg }; measured sodium 4 samples { lowest 100 mg; highest 300 mg }\n"
        " 1 cup = 180 g; 1 cup chopped = 160 g; refuse 10%; source \"made up\" }\n"
        "label \"Broth\" { serving 1 cup; sodium 140 mg }\nunit scoop { volume 60 ml; source \"made up\" }\ngroup shelf foods { within condiments }\n"
        "doubling shelf foods { with raw vegetables, salts; when brined }\n";
    static const char used[] = "kitchen \"K\"\nuse \"shop.pack\"\n";
    static const char recipe[] = "recipe \"A\" {\n serves 2\n 1 cup garden bean, chopped\n 1 scoop garden bean\n 1 cup \"Broth\"\n 1 cup gardn bean\n"
                                 " 100 g garden bean, as bought\n}\nfood own { group shelf foods; per 100 g { sodium 3 mg } }\n";
    char folder[256], text_path[300], pack_path[300];
    unsigned refused = 0, told = 0;
    folder_make(folder, sizeof folder);
    snprintf(text_path, sizeof text_path, "%s/shop.quern", folder);
    snprintf(pack_path, sizeof pack_path, "%s/shop.pack", folder);
    file_write(folder, "shop.quern", shop, sizeof shop - 1);
    struct quern_options options = { .variation = _i % 2 == 1 };
    struct quern_session *session = quern_open(&options);
    struct buffer out, pack;
    const char *text = text_path, *kitchen_path = folder;
    buffer_open(&out, allocator_standard());
    buffer_open(&pack, allocator_standard());
    ck_assert_int_eq(quern_pack(session, &text, 1, pack_path, sink_buffer, &out), QUERN_OK);
    ck_assert_int_eq(file_read(AT_FDCWD, pack_path, LIMIT_PACK_BYTES, &pack), STATUS_OK);
    unlink(text_path);
    file_write(folder, "kitchen.quern", used, sizeof used - 1);
    file_write(folder, "a.quern", recipe, sizeof recipe - 1);
    struct library stdlib;
    library_view(&stdlib, quern_stdlib_pack, NULL);
    struct pack_header *header = (void *)pack.bytes;
    for (size_t at = offsetof(struct pack_header, sections) + (size_t)_i; at < pack.length; at += 8) {
        char before = pack.bytes[at];
        pack.bytes[at] ^= at % 3 ? (char)0x80 : (char)0xff;
        if (at >= sizeof *header)
            pack_seal(pack.bytes, &stdlib);
        file_write(folder, "shop.pack", pack.bytes, pack.length);
        out.length = 0;
        quern_report(session, &kitchen_path, 1, NULL, QUERN_AS_JSON, sink_buffer, &out);
        buffer_add(&out, "", 1);
        bool is_refused = strstr(out.bytes, "bad-pack") != NULL;
        refused += is_refused;
        told += !is_refused;
        pack.bytes[at] = before;
    }
    ck_assert_uint_gt(refused, 20);
    ck_assert_uint_gt(told, 20);
    buffer_close(&out);
    buffer_close(&pack);
    quern_close(session);
    folder_remove(folder);
}
END_TEST

/* ---- rounding: printed figure, and every amount that it can stand for */

static const struct {
    const char *nutrient;
    double printed, low, high;
    bool possible;
} inversions[] = {
    { "sodium", 0, 0, 5, true },            { "sodium", 5, 5, 7.5, true },
    { "sodium", 10, 7.5, 12.5, true },      { "sodium", 135, 132.5, 137.5, true },
    { "sodium", 140, 137.5, 145, true },    { "sodium", 150, 145, 155, true },
    { "sodium", 580, 575, 585, true },      { "sodium", 145, 140, 150, false },
    { "energy", 0, 0, 5, true },            { "energy", 5, 2.5, 7.5, true },
    { "energy", 45, 42.5, 47.5, true },     { "energy", 50, 47.5, 55, true },
    { "energy", 60, 55, 65, true },         { "energy", 110, 105, 115, true },
    { "fat", 0, 0, 0.5, true },             { "fat", 0.5, 0.5, 0.75, true },
    { "fat", 1, 0.75, 1.25, true },         { "fat", 4.5, 4.25, 4.75, true },
    { "fat", 5, 4.75, 5.5, true },          { "fat", 6, 5.5, 6.5, true },
    { "saturated fat", 0.5, 0.5, 0.75, true },
    { "trans fat", 0, 0, 0.5, true },
    { "carbohydrate", 0, 0, 0.5, true },    { "carbohydrate", 2, 1.5, 2.5, true },
    { "fibre", 3, 2.5, 3.5, true },         { "sugars", 7, 6.5, 7.5, true },
    { "protein", 12, 11.5, 12.5, true },    { "protein", 0, 0, 0.5, true },
    { "cholesterol", 0, 0, 2.5, true },     { "cholesterol", 5, 2.5, 7.5, true },
    { "cholesterol", 30, 27.5, 32.5, true },
    { "potassium", 0, 0, 94, true },        { "potassium", 30, 25, 35, true },
    { "potassium", 470, 465, 475, true },
    { "calcium", 0, 0, 26, true },          { "calcium", 260, 255, 265, true },
    { "iron", 0, 0, 0.36, true },           { "iron", 1.2, 1.15, 1.25, true },
    { "vitamin d", 0, 0, 0.4, true },       { "vitamin d", 2, 1.95, 2.05, true },
};

static const struct rounding *rounding_of(const struct library *library, const char *nutrient)
{
    char key[KEY_BYTES];
    uint32_t number;
    const struct library *owner;
    const struct rules *rules = library_rules(library, key_of("us", key), &owner);
    ck_assert_ptr_nonnull(rules);
    ck_assert_ptr_nonnull(library_nutrient(library, key_of(nutrient, key), &number));
    return rules_rounding(owner, rules, number, false);
}

START_TEST(a_printed_figure_stands_for_every_amount_that_prints_it)
{
    struct library library = stdlib_view();
    struct range amounts;
    const struct rounding *rounding = rounding_of(&library, inversions[_i].nutrient);
    ck_assert_ptr_nonnull(rounding);
    bool possible = rounding_invert(&library, rounding, inversions[_i].printed, &amounts);
    ck_assert_msg(possible == inversions[_i].possible && fabs(amounts.low - inversions[_i].low) < 1e-9
                      && fabs(amounts.high - inversions[_i].high) < 1e-9 && amounts.best == inversions[_i].printed,
                  "%s %g: %s %.9g, %.9g, %.9g", inversions[_i].nutrient, inversions[_i].printed,
                  possible ? "possible" : "impossible", amounts.low, amounts.best, amounts.high);
}
END_TEST

/* Whatever prints as a figure lies in the range that the figure stands for. */
START_TEST(printing_and_inverting_agree)
{
    static const char *const nutrients[] = { "sodium", "energy", "fat", "carbohydrate", "cholesterol", "protein" };
    struct library library = stdlib_view();
    for (size_t i = 0; i < COUNT_OF(nutrients); i++) {
        const struct rounding *rounding = rounding_of(&library, nutrients[i]);
        for (int step = 0; step < 40000; step++) {
            struct range amounts;
            double amount = step / 64.0, printed = rounding_print(&library, rounding, amount);
            ck_assert_msg(rounding_invert(&library, rounding, printed, &amounts), "%s: %g prints as %g", nutrients[i], amount, printed);
            ck_assert_msg(amounts.low <= amount && amount <= amounts.high, "%s: %g prints as %g, which is said to be %g to %g",
                          nutrients[i], amount, printed, amounts.low, amounts.high);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("library");
    TCase *words = tcase_create("names"), *packs = tcase_create("packs"), *labels = tcase_create("labels");
    tcase_set_timeout(packs, 120);
    tcase_set_timeout(labels, 60);
    tcase_add_loop_test(words, names_are_sets_of_folded_singular_words, 0, COUNT_OF(names));
    tcase_add_test(words, in_written_order_the_order_counts);
    tcase_add_test(words, a_name_without_words_or_with_too_many_has_no_key);
    tcase_add_test(words, every_name_of_the_library_finds_what_it_names);
    tcase_add_loop_test(words, slips_are_offered_and_other_foods_are_not, 0, COUNT_OF(typos));
    tcase_add_test(packs, a_pack_that_was_compiled_verifies);
    tcase_add_test(packs, ends_stand_in_order_in_all_foods_columns_and_origins);
    tcase_add_test(packs, ends_stand_in_order_in_all_treatments_and_units);
    tcase_add_test(packs, the_same_declarations_give_the_same_bytes);
    tcase_add_test(packs, a_truncated_pack_is_refused);
    tcase_add_test(packs, any_changed_byte_is_noticed);
    tcase_add_test(packs, a_pack_of_another_version_or_byte_order_is_refused);
    tcase_add_loop_test(packs, a_forged_figure_is_refused, 0, COUNT_OF(forged_fields));
    tcase_add_test(packs, a_forged_order_of_ends_is_refused);
    tcase_add_loop_test(packs, a_refused_number_gets_into_no_pack, 0, COUNT_OF(written_knowledge));
    tcase_add_loop_test(packs, a_forged_pack_is_refused_or_harmless, 0, 4);
    tcase_add_loop_test(packs, a_forged_pack_in_use_is_refused_or_harmless, 0, 4);
    tcase_add_loop_test(labels, a_printed_figure_stands_for_every_amount_that_prints_it, 0, COUNT_OF(inversions));
    tcase_add_test(labels, printing_and_inverting_agree);
    suite_add_tcase(suite, words);
    suite_add_tcase(suite, packs);
    suite_add_tcase(suite, labels);
    return suite_run(suite);
}
