/* Looking up: which foods are found for some words, in which order, and how their figures are told. What a name holds
 * is found a second time here, the slow way. */
#include "unit/support.h"

#include <math.h>
#include <stdlib.h>

#include "library/library.h"
#include "output/lookup.h"

extern const unsigned char quern_stdlib_pack[];

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

static struct search search_for(const struct library *library, struct text words)
{
    struct search search = { .allocator = allocator_standard(), .library = library, .words = words, .group = NONE_INDEX, .nutrient = NONE_INDEX };
    ck_assert_int_eq(library_search(&search), STATUS_OK);
    return search;
}

static struct text name_of(const struct match *match)
{
    return library_text(match->food.library, match->name->written);
}

static bool found_as(const struct search *search, const struct food *food, enum match_kind at_worst)
{
    for (uint32_t i = 0; i < search->count; i++) {
        if (search->found[i].food.food == food)
            return search->found[i].kind <= at_worst;
    }
    return false;
}

/* Whether the key, with blanks around it, holds the word with blanks around it. */
static bool key_holds(struct text key, const char *word)
{
    char padded[KEY_BYTES + 3], wanted[KEY_BYTES + 3];
    snprintf(padded, sizeof padded, " %.*s ", (int)key.length, key.bytes);
    for (char *at = padded; *at; at++)
        *at = *at == '>' ? ' ' : *at;               /* names in order are parted so */
    snprintf(wanted, sizeof wanted, " %s ", word);
    return strstr(padded, wanted) != NULL;
}

/* ---- what is found ------------------------------------------------------------------------------------------------ */

START_TEST(every_name_finds_its_food_first)
{
    struct library library = stdlib_view();
    uint32_t names = 0;
    for (uint32_t i = 0; i < library.names_count; i += 11) {        /* each looks at all names: a share of them is enough */
        const struct name *name = &library.names[i];
        if (name->space != SPACE_FOOD)
            continue;
        struct text written = library_text(&library, name->written);
        struct search search = search_for(&library, written);
        ck_assert_msg(search.count > 0 && search.found[0].kind == MATCH_NAME && search.found[0].food.food == &library.foods[name->index],
                      "`%.*s` is not the first", (int)written.length, written.bytes);
        search_close(&search);
        names++;
    }
    ck_assert_uint_gt(names, 500);
}
END_TEST

static const char *const pairs[][2] = {
    { "bean", "canned" }, { "bean", "bean" }, { "milk", "milk" }, { "salt", "no" }, { "chicken", "breast" }, { "oil", "oil" },
    { "tomato", "canned" }, { "white", "rice" },
};

/* A food once, whichever of its names holds the words; all foods with such a name, and before all others. */
START_TEST(all_foods_with_all_of_the_words_come_first)
{
    struct library library = stdlib_view();
    const char *const *words = pairs[_i];
    char both[100];
    uint32_t wanted = 0, found = 0;
    bool *holds = calloc(library.foods_count, sizeof *holds);
    for (uint32_t i = 0; i < library.names_count; i++) {
        const struct name *name = &library.names[i];
        struct text key = library_text(&library, name->key);
        if (name->space == SPACE_FOOD && key_holds(key, words[0]) && key_holds(key, words[1]))
            holds[name->index] = true;
    }
    for (uint32_t i = 0; i < library.foods_count; i++)
        wanted += holds[i];
    ck_assert_uint_gt(wanted, 1);
    snprintf(both, sizeof both, "%s %s", words[1], words[0]);
    struct search search = search_for(&library, text_of(both));
    for (uint32_t i = 0; i < search.count; i++) {
        const struct match *match = &search.found[i];
        bool all = match->kind <= MATCH_WORDS;
        ck_assert_msg(all == holds[match->food.food - library.foods], "%s: %.*s", both, (int)name_of(match).length, name_of(match).bytes);
        ck_assert_msg(!all || i == found, "%s: %.*s stands behind lesser ones", both, (int)name_of(match).length, name_of(match).bytes);
        found += all;
        for (uint32_t j = 0; j < i; j++)
            ck_assert_msg(search.found[j].food.food != match->food.food, "%s: twice %.*s", both, (int)name_of(match).length, name_of(match).bytes);
    }
    ck_assert_uint_eq(found, wanted);
    search_close(&search);
    free(holds);
}
END_TEST

START_TEST(of_those_with_all_words_the_shorter_name_comes_first_then_the_alphabet)
{
    struct library library = stdlib_view();
    struct search search = search_for(&library, text_of("canned"));
    uint32_t compared = 0;
    for (uint32_t i = 1; i < search.count && search.found[i].kind == MATCH_WORDS; i++, compared++) {
        struct text before = name_of(&search.found[i - 1]), name = name_of(&search.found[i]);
        int order = memcmp(before.bytes, name.bytes, before.length < name.length ? before.length : name.length);
        ck_assert_msg(before.length < name.length || (before.length == name.length && order < 0), "%.*s before %.*s",
                      (int)before.length, before.bytes, (int)name.length, name.bytes);
    }
    ck_assert_uint_gt(compared, 20);
    search_close(&search);
}
END_TEST

static const struct {
    const char *written, *food;
    enum match_kind kind;               /* at worst */
} written[] = {
    { "chickpaes canned", "canned chickpeas", MATCH_NEAR },   { "chickp", "canned chickpeas", MATCH_NEAR },
    { "galric", "garlic", MATCH_NEAR },                       { "whit beans cannd", "canned white beans", MATCH_NEAR },
    { "salt butter", "salted butter", MATCH_NEAR },           { "chickpeas in liquid", "canned chickpeas", MATCH_SOME },
    { "Garbanzos", "canned chickpeas", MATCH_WORDS },         { "Tomatoes", "tomato", MATCH_NAME },
};

START_TEST(slips_stems_and_words_too_many_still_find_the_food)
{
    char key[KEY_BYTES];
    struct library library = stdlib_view();
    const struct food *food = library_food(&library, key_of(written[_i].food, key)).food;
    struct search search = search_for(&library, text_of(written[_i].written));
    ck_assert_ptr_nonnull(food);
    ck_assert_msg(found_as(&search, food, written[_i].kind), "%s does not find %s", written[_i].written, written[_i].food);
    search_close(&search);
}
END_TEST

/* Letters are compared first because that is cheap: it must never lose a word that is alike. */
START_TEST(no_slip_that_counts_as_one_is_lost)
{
    struct library library = stdlib_view();
    uint32_t tried = 0, seed = 7;
    for (uint32_t i = 0; i < library.names_count; i++) {
        const struct name *name = &library.names[i];
        struct text key = library_text(&library, name->key);
        char slip[64];
        if (name->space != SPACE_FOOD || key.length > 40 || memchr(key.bytes, ' ', key.length) || key.bytes[0] == '>')
            continue;
        for (uint32_t at = 0; at + 1 < key.length; at++) {
            snprintf(slip, sizeof slip, "%.*s", (int)key.length, key.bytes);
            seed = seed * 1103515245 + 12345;
            slip[at] = (char)('a' + (seed >> 16) % 26);             /* another letter, or … */
            if (seed & 0x10000)
                slip[at] = slip[at + 1], slip[at + 1] = key.bytes[at];   /* … two swapped */
            char slip_key[KEY_BYTES];
            struct text wanted = key_of(slip, slip_key);
            if (name_word_likeness(wanted, key) <= 0)
                continue;
            struct search search = search_for(&library, text_of(slip));
            bool better = search.count > 0 && search.found[0].kind <= MATCH_WORDS;
            ck_assert_msg(better || found_as(&search, &library.foods[name->index], MATCH_NEAR), "%s does not find %.*s", slip, (int)key.length, key.bytes);
            search_close(&search);
            tried++;
        }
    }
    ck_assert_uint_gt(tried, 300);
}
END_TEST

/* ---- groups and amounts -------------------------------------------------------------------------------------------- */

START_TEST(a_group_is_all_its_foods_and_those_of_groups_within_it)
{
    char key[KEY_BYTES];
    struct library library = stdlib_view();
    uint32_t group = library_group(&library, key_of("legumes", key)), wanted = 0, inner = 0;
    struct search search = { .allocator = allocator_standard(), .library = &library, .group = group, .nutrient = NONE_INDEX };
    ck_assert_uint_ne(group, NONE_INDEX);
    for (uint32_t i = 0; i < library.foods_count; i++) {
        bool within = false;
        for (uint32_t at = library.foods[i].group; at != NONE_INDEX; at = library.groups[at].parent)
            within = within || at == group;
        wanted += within;
        inner += within && library.foods[i].group != group;
    }
    ck_assert_int_eq(library_search(&search), STATUS_OK);
    ck_assert_uint_eq(search.count, wanted);
    ck_assert_uint_gt(inner, 10);
    search_close(&search);
}
END_TEST

static const struct {
    const char *nutrient;
    bool highest;
} orders[] = { { "sodium", false }, { "sodium", true }, { "sugars", false }, { "vitamin k", true } };

START_TEST(sorted_foods_stand_in_order_and_unknown_ones_last)
{
    char key[KEY_BYTES];
    struct library library = stdlib_view();
    uint32_t nutrient, unknown = 0;
    ck_assert_ptr_nonnull(library_nutrient(&library, key_of(orders[_i].nutrient, key), &nutrient));
    struct search search = { .allocator = allocator_standard(), .library = &library, .words = text_of("bean"), .group = NONE_INDEX,
                             .nutrient = nutrient, .highest = orders[_i].highest };
    ck_assert_int_eq(library_search(&search), STATUS_OK);
    ck_assert_uint_gt(search.count, 20);
    double before = orders[_i].highest ? INFINITY : 0;
    for (uint32_t i = 0; i < search.count; i++) {
        const struct food *food = search.found[i].food.food;
        double amount = library.values[food->values + nutrient].best;
        bool known = food->known >> nutrient & 1;
        ck_assert(search.found[i].kind <= MATCH_WORDS);
        ck_assert_msg(!known || unknown == 0, "a known amount behind an unknown one");
        ck_assert(!known || (orders[_i].highest ? amount <= before : amount >= before));
        before = known ? amount : before;
        unknown += !known;
    }
    ck_assert_uint_eq(search.unknown_count, unknown);
    ck_assert(_i < 2 || unknown > 0);
    search_close(&search);
}
END_TEST

/* ---- figures ------------------------------------------------------------------------------------------------------- */

static const struct {
    double low, best, high;
    bool known;
    const char *figure;
} figures[] = {
    { 0, 0, 0, true, "0" },                     { 0, 0, 0, false, "unknown" },      { 278, 278, 278, true, "278" },
    { 0.0004, 0.0004, 0.0004, true, "0.0004" }, { 667.2, 667.2, 667.2, true, "667" }, { 38758, 38758, 38758, true, "38758" },
    { 3.408, 3.408, 3.408, true, "3.41" },      { 91.306, 91.306, 91.306, true, "91.3" }, { 0.3, 0.3, 0.3, true, "0.3" },
    { 90, 100, 120, true, "90 to 120" },        { 3.001, 4, 6.991, true, "3 to 7" }, { 100.9, 105, 110.1, true, "100 to 111" },
    { 0, 1, 2, true, "0 to 2" },                { 9.999, 9.9995, 10, true, "9.99 to 10" },
};

START_TEST(figures_have_three_digits_and_ranges_are_never_narrowed)
{
    char storage[64];
    struct text figure = lookup_figure(storage, sizeof storage, range_of(figures[_i].low, figures[_i].best, figures[_i].high), figures[_i].known);
    ck_assert_str_eq(figure.bytes, figures[_i].figure);
    ck_assert_uint_eq(figure.length, strlen(figures[_i].figure));
}
END_TEST

START_TEST(no_range_is_narrowed_whatever_it_is)
{
    uint32_t seed = 1;
    for (int i = 0; i < 20000; i++) {
        char storage[64];
        double ends[2];
        for (int j = 0; j < 2; j++) {
            seed = seed * 1103515245 + 12345;
            ends[j] = exp((double)(seed >> 8 & 0xffff) / 65536 * 24 - 10);
        }
        struct range range = range_between(fmin(ends[0], ends[1]), fmax(ends[0], ends[1]));
        double low, high;
        lookup_figure(storage, sizeof storage, range, true);
        int read = sscanf(storage, "%lf to %lf", &low, &high);
        high = read == 1 ? low : high;
        ck_assert_int_ge(read, 1);
        ck_assert_msg(low <= range.low * (1 + 1e-8) && high >= range.high * (1 - 1e-8), "%.12g to %.12g told as %s", range.low, range.high, storage);
        ck_assert_msg(low >= range.low * 0.99 && high <= range.high * 1.011, "%.12g to %.12g told as %s", range.low, range.high, storage);
    }
}
END_TEST

static const struct {
    const char *food, *portion;         /* NULL: none */
} usual[] = {
    { "canned chickpeas", "1 cup" },    { "drained canned chickpeas", "1 cup" }, { "salted butter", "1 tablespoon" },
};

START_TEST(the_usual_portion_is_the_first_that_the_figures_are_for)
{
    char key[KEY_BYTES], words[KEY_BYTES];
    struct library library = stdlib_view();
    struct food_at food = library_food(&library, key_of(usual[_i].food, key));
    ck_assert_ptr_nonnull(food.food);
    const struct portion *portion = lookup_portion(food);
    ck_assert_ptr_nonnull(portion);
    lookup_portion_words(food, portion, words, sizeof words);
    ck_assert_str_eq(words, usual[_i].portion);
}
END_TEST

/* ---- the door ------------------------------------------------------------------------------------------------------ */

static enum quern_status look_up(struct quern_lookup wanted, struct buffer *out, char *failure, size_t size)
{
    struct quern_session *session = quern_open(NULL);
    enum quern_status status = quern_lookup(session, &wanted, sink_buffer, out);
    snprintf(failure, size, "%s", quern_failure(session));
    quern_close(session);
    return status;
}

static const struct {
    struct quern_lookup wanted;
    enum quern_status status;
    const char *failure;
} doors[] = {
    { { .words = NULL }, QUERN_FAILED, "there are no words to look for" },
    { { .words = " \t " }, QUERN_FAILED, "there are no words to look for" },
    { { .words = "beans", .group = "canned leguems" }, QUERN_FAILED, "no group is called `canned leguems`; near names are canned legumes" },
    { { .words = "beans", .lowest = "xyz" }, QUERN_FAILED, "no nutrient is called `xyz`" },
    { { .words = "beans", .kitchen = "/no such folder" }, QUERN_FAILED, "/no such folder: No such file or directory" },
    { { .words = "beans" }, QUERN_OK, "" },
    { { .words = "canned chickpeas" }, QUERN_OK, "" },
    { { .words = "butter" }, QUERN_OK, "" },
    { { .group = "legumes" }, QUERN_OK, "" },
    { { .words = "chickpaes" }, QUERN_FINDINGS, "" },
    { { .words = "xylophone" }, QUERN_FINDINGS, "" },
};

START_TEST(the_status_tells_what_was_found)
{
    struct buffer out;
    char failure[600];
    buffer_open(&out, allocator_standard());
    ck_assert_int_eq(look_up(doors[_i].wanted, &out, failure, sizeof failure), doors[_i].status);
    ck_assert_msg(strncmp(failure, doors[_i].failure, strlen(doors[_i].failure)) == 0, "%s", failure);
    ck_assert_int_eq(failure[0] == '\0', doors[_i].failure[0] == '\0');
    ck_assert_int_eq(out.length == 0, doors[_i].status == QUERN_FAILED);
    buffer_close(&out);
}
END_TEST

static const char hostile_bytes[] = "\x1b[31m\x7f\xc2\x9b\xe2\x80\xae\xff\x01`\"<,=";

/* Whatever the words are, they are answered or refused; no control character comes through to a terminal. */
START_TEST(no_words_drive_the_terminal)
{
    uint32_t seed = 3;
    for (int i = 0; i < 3000; i++) {
        struct buffer out;
        char words[40], failure[600];
        size_t length = 1 + (size_t)i % (sizeof words - 1);
        for (size_t j = 0; j < length; j++) {
            seed = seed * 1103515245 + 12345;
            words[j] = j % 3 ? hostile_bytes[(seed >> 16) % (sizeof hostile_bytes - 1)] : (char)('a' + (seed >> 16) % 26);
        }
        words[length] = '\0';
        buffer_open(&out, allocator_standard());
        look_up((struct quern_lookup){ .words = words, .group = i % 5 ? NULL : "legumes" }, &out, failure, sizeof failure);
        for (size_t j = 0; j < out.length; j++)
            ck_assert_msg((unsigned char)out.bytes[j] >= ' ' || out.bytes[j] == '\n', "byte %x comes through", out.bytes[j]);
        ck_assert_msg(!memchr(out.bytes ? out.bytes : "", 0x7f, out.length), "a delete character comes through");
        buffer_close(&out);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("lookup");
    TCase *search = tcase_create("search"), *telling = tcase_create("telling");
    tcase_set_timeout(search, 120);
    tcase_set_timeout(telling, 60);
    tcase_add_test(search, every_name_finds_its_food_first);
    tcase_add_loop_test(search, all_foods_with_all_of_the_words_come_first, 0, COUNT_OF(pairs));
    tcase_add_test(search, of_those_with_all_words_the_shorter_name_comes_first_then_the_alphabet);
    tcase_add_loop_test(search, slips_stems_and_words_too_many_still_find_the_food, 0, COUNT_OF(written));
    tcase_add_test(search, no_slip_that_counts_as_one_is_lost);
    tcase_add_test(search, a_group_is_all_its_foods_and_those_of_groups_within_it);
    tcase_add_loop_test(search, sorted_foods_stand_in_order_and_unknown_ones_last, 0, COUNT_OF(orders));
    tcase_add_loop_test(telling, figures_have_three_digits_and_ranges_are_never_narrowed, 0, COUNT_OF(figures));
    tcase_add_test(telling, no_range_is_narrowed_whatever_it_is);
    tcase_add_loop_test(telling, the_usual_portion_is_the_first_that_the_figures_are_for, 0, COUNT_OF(usual));
    tcase_add_loop_test(telling, the_status_tells_what_was_found, 0, COUNT_OF(doors));
    tcase_add_test(telling, no_words_drive_the_terminal);
    suite_add_tcase(suite, search);
    suite_add_tcase(suite, telling);
    return suite_run(suite);
}
