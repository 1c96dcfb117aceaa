/* base: memory, text, tables, ranges. */
#include "unit/support.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdlib.h>
#include <unistd.h>

/* ---- arena */

START_TEST(an_arena_gives_zeroed_memory_aligned_to_eight)
{
    struct arena arena;
    arena_open(&arena, allocator_standard());
    for (size_t size = 1; size < 3000; size += 7) {
        unsigned char *taken = arena_take(&arena, size);
        ck_assert_ptr_nonnull(taken);
        ck_assert_uint_eq((uintptr_t)taken % 8, 0);
        for (size_t i = 0; i < size; i++)
            ck_assert_uint_eq(taken[i], 0);
        memset(taken, 0xff, size);
    }
    arena_close(&arena);
}
END_TEST

START_TEST(memory_used_again_after_a_rewind_is_zeroed_too)
{
    struct arena arena;
    arena_open(&arena, allocator_standard());
    struct arena_mark mark = arena_mark(&arena);
    memset(arena_take(&arena, 500), 0xff, 500);
    arena_rewind(&arena, mark);
    unsigned char *again = arena_take(&arena, 500);
    for (size_t i = 0; i < 500; i++)
        ck_assert_uint_eq(again[i], 0);
    arena_close(&arena);
}
END_TEST

START_TEST(a_rewind_keeps_what_was_taken_before_the_mark)
{
    struct arena arena;
    arena_open(&arena, allocator_standard());
    char *before = arena_copy(&arena, "before", 6);
    struct arena_mark mark = arena_mark(&arena);
    for (int i = 0; i < 1000; i++)
        ck_assert_ptr_nonnull(arena_take(&arena, 1000));
    arena_rewind(&arena, mark);
    memset(arena_take(&arena, 100), 'x', 100);
    ck_assert_str_eq(before, "before");
    arena_close(&arena);
}
END_TEST

START_TEST(an_arena_that_is_rewound_stops_asking_for_memory)
{
    struct budget budget = { .left = 1000000 };
    struct arena arena;
    arena_open(&arena, budget_allocator(&budget));
    for (int round = 0; round < 100; round++) {
        struct arena_mark mark = arena_mark(&arena);
        for (int i = 0; i < 50; i++)
            ck_assert_ptr_nonnull(arena_take(&arena, 40));
        arena_rewind(&arena, mark);
        if (round == 1)
            budget.left = 0;
    }
    ck_assert(!arena.failed);
    arena_close(&arena);
    ck_assert_int_eq(budget.live, 0);
}
END_TEST

START_TEST(an_arena_without_memory_gives_null_and_remembers)
{
    struct budget budget = { .left = 0 };
    struct arena arena;
    arena_open(&arena, budget_allocator(&budget));
    ck_assert_ptr_null(arena_take(&arena, 1));
    ck_assert(arena.failed);
    budget.left = 5;
    ck_assert_ptr_nonnull(arena_take(&arena, 1));
    ck_assert(arena.failed);
    arena_close(&arena);
    ck_assert_int_eq(budget.live, 0);
}
END_TEST

START_TEST(a_size_that_overflows_is_refused_and_remembered)
{
    struct arena arena;
    arena_open(&arena, allocator_standard());
    ck_assert_ptr_null(arena_take(&arena, SIZE_MAX - 3));
    ck_assert(arena.failed);
    arena_close(&arena);
}
END_TEST

START_TEST(printed_and_copied_text_ends_in_nul)
{
    struct arena arena;
    arena_open(&arena, allocator_standard());
    ck_assert_str_eq(arena_print(&arena, "%s %d", "cups", 2), "cups 2");
    ck_assert_str_eq(arena_copy(&arena, "kale and more", 4), "kale");
    ck_assert_str_eq(arena_copy(&arena, NULL, 0), "");
    arena_close(&arena);
}
END_TEST

START_TEST(an_array_that_cannot_grow_stays_as_it_was)
{
    struct budget budget = { .left = 1 };
    struct allocator allocator = budget_allocator(&budget);
    uint32_t *items = NULL, capacity = 0, count = 0;
    while (array_grow(&allocator, &items, count, &capacity, sizeof *items)) {
        items[count] = count;
        count++;
        ck_assert_uint_lt(count, 1000);
    }
    ck_assert_uint_eq(count, capacity);
    for (uint32_t i = 0; i < count; i++)
        ck_assert_uint_eq(items[i], i);
    allocator.resize(allocator.context, items, 0);
    ck_assert_int_eq(budget.live, 0);
}
END_TEST

/* ---- buffer */

START_TEST(a_buffer_holds_what_was_added_with_a_nul_behind_it)
{
    struct buffer buffer;
    buffer_open(&buffer, allocator_standard());
    for (int i = 0; i < 1000; i++)
        buffer_print(&buffer, "%d,", i % 10);
    buffer_add(&buffer, "end", 3);
    buffer_add(&buffer, NULL, 0);
    buffer_add_string(&buffer, "!");
    ck_assert_uint_eq(buffer.length, 2004);
    ck_assert_uint_eq(strlen(buffer.bytes), 2004);
    ck_assert_str_eq(buffer.bytes + 1996, "8,9,end!");
    buffer_close(&buffer);
}
END_TEST

START_TEST(a_buffer_that_failed_takes_no_more)
{
    struct budget budget = { .left = 1 };
    struct buffer buffer;
    char block[5000];
    memset(block, 'x', sizeof block);
    buffer_open(&buffer, budget_allocator(&budget));
    buffer_add_string(&buffer, "kept");
    buffer_add(&buffer, block, sizeof block);
    ck_assert(buffer.failed);
    buffer_add_string(&buffer, "after");
    buffer_print(&buffer, "%d", 3);
    ck_assert_uint_eq(buffer.length, 4);
    ck_assert_str_eq(buffer.bytes, "kept");
    buffer_close(&buffer);
    ck_assert_int_eq(budget.live, 0);
}
END_TEST

/* ---- table */

START_TEST(a_table_finds_every_value_under_its_hash)
{
    struct table table;
    uint32_t position;
    table_open(&table, allocator_standard());
    ck_assert_uint_eq(table_find(&table, 1, &position), TABLE_NONE);
    for (uint32_t i = 0; i < 5000; i++)
        ck_assert(table_add(&table, hash_bytes(&i, sizeof i), i));
    for (uint32_t i = 0; i < 5000; i++)
        ck_assert_uint_eq(table_find(&table, hash_bytes(&i, sizeof i), &position), i);
    uint32_t stranger = 5000;
    ck_assert_uint_eq(table_find(&table, hash_bytes(&stranger, sizeof stranger), &position), TABLE_NONE);
    table_close(&table);
}
END_TEST

START_TEST(a_table_with_room_for_all_takes_them_without_asking_again)
{
    struct budget budget = { .left = 1 };
    struct table table;
    uint32_t position;
    table_open(&table, budget_allocator(&budget));
    ck_assert(table_reserve(&table, 1000));
    for (uint32_t i = 0; i < 1000; i++)
        ck_assert(table_add(&table, hash_mix(i + 1, 77), i));
    for (uint32_t i = 0; i < 1000; i++)
        ck_assert_uint_eq(table_find(&table, hash_mix(i + 1, 77), &position), i);
    table_close(&table);
    ck_assert_int_eq(budget.live, 0);
}
END_TEST

START_TEST(values_that_share_a_hash_come_one_after_the_other)
{
    struct table table;
    uint32_t position, seen = 0;
    table_open(&table, allocator_standard());
    for (uint32_t i = 0; i < 20; i++)
        ck_assert(table_add(&table, 7, i));
    for (uint32_t value = table_find(&table, 7, &position); value != TABLE_NONE; value = table_next(&table, 7, &position))
        seen |= 1u << value;
    ck_assert_uint_eq(seen, (1u << 20) - 1);
    table_close(&table);
}
END_TEST

START_TEST(a_table_that_cannot_grow_keeps_what_it_has)
{
    struct budget budget = { .left = 1 };
    struct table table;
    uint32_t position, count = 0;
    table_open(&table, budget_allocator(&budget));
    while (table_add(&table, hash_mix(count + 1, 77), count))
        count++;
    ck_assert_uint_gt(count, 0);
    for (uint32_t i = 0; i < count; i++)
        ck_assert_uint_eq(table_find(&table, hash_mix(i + 1, 77), &position), i);
    table_close(&table);
    ck_assert_int_eq(budget.live, 0);
}
END_TEST

/* The product of two 64-bit numbers, folded: computed here with the compiler's wide type. */
START_TEST(hash_mix_is_the_folded_product)
{
    __extension__ typedef unsigned __int128 wide;
    uint64_t a = 0x123456789abcdef1u, b = 0xfedcba9876543211u;
    for (int i = 0; i < 1000; i++) {
        wide product = (wide)a * b;
        ck_assert_uint_eq(hash_mix(a, b), (uint64_t)product ^ (uint64_t)(product >> 64));
        a = a * 6364136223846793005u + 1442695040888963407u;
        b ^= a << 13;
    }
}
END_TEST

/* ---- UTF-8 */

static const struct {
    const char *written, *folded;
} foldings[] = {
    { "Kale", "kale" },
    { "JALAPE\xc3\x91O", "jalapeno" },
    { "jalapen\xcc\x83o", "jalapeno" },
    { "cr\xc3\xa8me", "creme" },
    { "Stra\xc3\x9f" "e", "strasse" },
    { "baker's", "bakers" },
    { "baker\xe2\x80\x99s", "bakers" },
    { "oz.", "oz" },
    { "\xc5\x92uf", "\xc5\x93uf" },
    { "80/20", "80/20" },
    { "", "" },
};

START_TEST(folding_drops_case_accents_apostrophes_and_dots)
{
    char folded[64];
    uint32_t length = utf8_fold(foldings[_i].written, (uint32_t)strlen(foldings[_i].written), folded, sizeof folded);
    ck_assert_msg(text_is((struct text){ folded, length }, foldings[_i].folded), "`%s` became `%.*s`",
                  foldings[_i].written, (int)length, folded);
}
END_TEST

START_TEST(folding_that_does_not_fit_gives_nothing)
{
    char folded[8];
    ck_assert_uint_eq(utf8_fold("kale", 4, folded, 4), 4);
    ck_assert_uint_eq(utf8_fold("kales", 5, folded, 4), 0);
    ck_assert_uint_eq(utf8_fold("kal\xc3\x9f", 5, folded, 4), 0);
}
END_TEST

static const struct {
    const char *bytes;
    uint32_t size, length;
} sequences[] = {
    { "a", 1, 1 }, { "\x7f", 1, 1 }, { "\xc3\xa9", 2, 2 }, { "\xe2\x82\xac", 3, 3 }, { "\xf0\x9f\xa5\x95", 4, 4 },
    { "\xc3", 1, 0 }, { "\xe2\x82", 2, 0 }, { "\xf0\x9f\xa5", 3, 0 },      /* cut short */
    { "\x80", 1, 0 }, { "\xff", 1, 0 }, { "\xfe", 1, 0 },                  /* never a start */
    { "\xc0\xaf", 2, 0 }, { "\xe0\x80\xaf", 3, 0 }, { "\xf0\x80\x80\xaf", 4, 0 },  /* overlong */
    { "\xed\xa0\x80", 3, 0 }, { "\xed\xbf\xbf", 3, 0 },                    /* surrogates */
    { "\xf4\x90\x80\x80", 4, 0 }, { "\xf5\x80\x80\x80", 4, 0 },            /* past the last code point */
    { "\xf4\x8f\xbf\xbf", 4, 4 }, { "\xc3\x41", 2, 0 }, { "", 0, 0 },
};

START_TEST(only_valid_sequences_have_a_length)
{
    ck_assert_uint_eq(utf8_length(sequences[_i].bytes, sequences[_i].size), sequences[_i].length);
}
END_TEST

static const struct {
    uint32_t code_point;
    bool forbidden;
} characters[] = {
    { 0, true }, { 7, true }, { 8, true }, { '\t', false }, { '\n', false }, { 0x0b, true }, { 0x0c, true },
    { '\r', false }, { 0x1b, true }, { 0x1f, true }, { ' ', false }, { 0x7e, false }, { 0x7f, true }, { 0x80, true },
    { 0x85, true }, { 0x9b, true }, { 0x9f, true }, { 0xa0, false }, { 0x200e, true }, { 0x200f, true },
    { 0x2029, false }, { 0x202a, true }, { 0x202e, true }, { 0x2065, false }, { 0x2066, true }, { 0x2069, true },
    { 0x61c, true }, { 0x1f955, false }, { 0xe9, false },
};

START_TEST(control_and_direction_characters_are_forbidden)
{
    ck_assert_msg(utf8_is_forbidden(characters[_i].code_point) == characters[_i].forbidden, "U+%04X", characters[_i].code_point);
}
END_TEST

START_TEST(what_is_made_visible_drives_no_terminal)
{
    static const char text[] = "a\x1b[2Jb\n\xc2\x9b\xe2\x80\xae\xff kal\xc3\xa9";
    struct buffer buffer;
    buffer_open(&buffer, allocator_standard());
    buffer_add_visible(&buffer, (struct text){ text, sizeof text - 1 });
    ck_assert_str_eq(buffer.bytes, "a\xef\xbf\xbd[2Jb\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd kal\xc3\xa9");
    buffer_close(&buffer);
}
END_TEST

/* ---- powers of ten */

START_TEST(the_decade_of_an_amount_is_that_of_its_first_figure)
{
    static const struct { double amount; int decade; } cases[] = {
        { 1, 0 }, { 9.99, 0 }, { 10, 1 }, { 999.9999, 2 }, { 1000, 3 }, { 0.1, -1 }, { 0.0999, -2 }, { 0.001, -3 },
        { 2e-7, -7 }, { 1e22, 22 }, { 1e25, 22 }, { 1e-25, -22 },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        ck_assert_int_eq(amount_decade(cases[i].amount), cases[i].decade);
    ck_assert_double_eq(power_of_ten(0), 1);
    ck_assert_double_eq(power_of_ten(-9), 1e-9);
    ck_assert_double_eq(power_of_ten(15), 1e15);
}
END_TEST

/* ---- ranges */

static void expect_is(struct range range, double low, double best, double high)
{
    ck_assert_double_eq(range.low, low);
    ck_assert_double_eq(range.best, best);
    ck_assert_double_eq(range.high, high);
}

START_TEST(range_arithmetic_takes_every_combination_of_bounds)
{
    struct range a = range_of(2, 3, 4), b = range_of(5, 8, 10);
    expect_is(range_add(a, b), 7, 11, 14);
    expect_is(range_multiply(a, b), 10, 24, 40);
    expect_is(range_scale(a, 0.5), 1, 1.5, 2);
    expect_is(range_divide(b, a), 1.25, 8.0 / 3, 5);
    expect_is(range_between(2, 3), 2, 2.5, 3);
    expect_is(range_join(a, b), 2, 5.5, 10);
    expect_is(range_exact(7), 7, 7, 7);
    ck_assert(range_is_exact(range_exact(0)));
    ck_assert(!range_is_exact(a));
}
END_TEST

START_TEST(amounts_made_of_tenths_equal_what_they_add_up_to)
{
    double sum = 0;
    for (int i = 0; i < 1400; i++)
        sum += 0.1;
    ck_assert(sum != 140);
    ck_assert_int_eq(amount_compare(sum, 140), 0);
    ck_assert_int_eq(amount_compare(0.1 + 0.2, 0.3), 0);
    ck_assert_int_eq(amount_compare(140 * (1 + 0.9e-9), 140), 0);
    ck_assert_int_eq(amount_compare(140 * (1 + 1.1e-9), 140), 1);
    ck_assert_int_eq(amount_compare(140, 140 * (1 + 1.1e-9)), -1);
    ck_assert_int_eq(amount_compare(1e-30, 0), 1);
    ck_assert_int_eq(amount_compare(0, 0), 0);
    ck_assert_int_eq(amount_compare(5, INFINITY), -1);
    ck_assert_int_eq(amount_compare(INFINITY, INFINITY), 0);
    ck_assert_int_eq(amount_compare(INFINITY, 5), 1);
}
END_TEST

/* ---- files */

START_TEST(a_file_at_the_limit_is_read_and_one_byte_more_is_not)
{
    char folder[256], path[300];
    struct buffer buffer;
    folder_make(folder, sizeof folder);
    file_write(folder, "a", "0123456789", 10);
    snprintf(path, sizeof path, "%s/a", folder);
    buffer_open(&buffer, allocator_standard());
    ck_assert_int_eq(file_read(AT_FDCWD, path, 10, &buffer), STATUS_OK);
    ck_assert_uint_eq(buffer.length, 10);
    ck_assert_mem_eq(buffer.bytes, "0123456789\0\0", 12);
    ck_assert_int_eq(file_read(AT_FDCWD, path, 9, &buffer), STATUS_LIMIT);
    ck_assert_int_eq(file_read(AT_FDCWD, folder, 9, &buffer), STATUS_IO);
    ck_assert_int_eq(errno, EISDIR);
    snprintf(path, sizeof path, "%s/b", folder);
    ck_assert_int_eq(file_read(AT_FDCWD, path, 9, &buffer), STATUS_IO);
    ck_assert_int_eq(errno, ENOENT);
    buffer_close(&buffer);
    folder_remove(folder);
}
END_TEST

/* Pipes and devices have no size beforehand: they are read until the limit. */
START_TEST(an_endless_file_stops_at_the_limit)
{
    struct buffer buffer;
    buffer_open(&buffer, allocator_standard());
    ck_assert_int_eq(file_read(AT_FDCWD, "/dev/zero", 100000, &buffer), STATUS_LIMIT);
    ck_assert_int_eq(file_read(AT_FDCWD, "/dev/null", 100000, &buffer), STATUS_OK);
    ck_assert_uint_eq(buffer.length, 0);
    buffer_close(&buffer);
}
END_TEST

START_TEST(an_output_appears_only_when_it_is_whole)
{
    char folder[256], path[300];
    struct output_file file;
    folder_make(folder, sizeof folder);
    snprintf(path, sizeof path, "%s/report", folder);
    ck_assert_int_eq(output_file_open(&file, allocator_standard(), path), STATUS_OK);
    fputs("half", file.stream);
    ck_assert_int_ne(access(path, F_OK), 0);
    output_file_abandon(&file);
    ck_assert_int_ne(access(path, F_OK), 0);
    ck_assert_int_eq(rmdir(folder), 0);             /* nothing is left beside it */
    folder_make(folder, sizeof folder);
    snprintf(path, sizeof path, "%s/report", folder);
    ck_assert_int_eq(output_file_open(&file, allocator_standard(), path), STATUS_OK);
    fputs("whole", file.stream);
    ck_assert_int_eq(output_file_finish(&file), STATUS_OK);
    ck_assert_int_eq(access(path, F_OK), 0);
    folder_remove(folder);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("base");
    TCase *memory = tcase_create("memory"), *text = tcase_create("text"), *numbers = tcase_create("numbers"), *files = tcase_create("files");
    tcase_add_test(memory, an_arena_gives_zeroed_memory_aligned_to_eight);
    tcase_add_test(memory, memory_used_again_after_a_rewind_is_zeroed_too);
    tcase_add_test(memory, a_rewind_keeps_what_was_taken_before_the_mark);
    tcase_add_test(memory, an_arena_that_is_rewound_stops_asking_for_memory);
    tcase_add_test(memory, an_arena_without_memory_gives_null_and_remembers);
    tcase_add_test(memory, a_size_that_overflows_is_refused_and_remembered);
    tcase_add_test(memory, printed_and_copied_text_ends_in_nul);
    tcase_add_test(memory, an_array_that_cannot_grow_stays_as_it_was);
    tcase_add_test(memory, a_buffer_holds_what_was_added_with_a_nul_behind_it);
    tcase_add_test(memory, a_buffer_that_failed_takes_no_more);
    tcase_add_test(memory, a_table_finds_every_value_under_its_hash);
    tcase_add_test(memory, a_table_with_room_for_all_takes_them_without_asking_again);
    tcase_add_test(memory, values_that_share_a_hash_come_one_after_the_other);
    tcase_add_test(memory, a_table_that_cannot_grow_keeps_what_it_has);
    tcase_add_test(memory, hash_mix_is_the_folded_product);
    tcase_add_loop_test(text, folding_drops_case_accents_apostrophes_and_dots, 0, COUNT_OF(foldings));
    tcase_add_test(text, folding_that_does_not_fit_gives_nothing);
    tcase_add_loop_test(text, only_valid_sequences_have_a_length, 0, COUNT_OF(sequences));
    tcase_add_loop_test(text, control_and_direction_characters_are_forbidden, 0, COUNT_OF(characters));
    tcase_add_test(text, what_is_made_visible_drives_no_terminal);
    tcase_add_test(numbers, the_decade_of_an_amount_is_that_of_its_first_figure);
    tcase_add_test(numbers, range_arithmetic_takes_every_combination_of_bounds);
    tcase_add_test(numbers, amounts_made_of_tenths_equal_what_they_add_up_to);
    tcase_add_test(files, a_file_at_the_limit_is_read_and_one_byte_more_is_not);
    tcase_add_test(files, an_endless_file_stops_at_the_limit);
    tcase_add_test(files, an_output_appears_only_when_it_is_whole);
    suite_add_tcase(suite, memory);
    suite_add_tcase(suite, text);
    suite_add_tcase(suite, numbers);
    suite_add_tcase(suite, files);
    return suite_run(suite);
}
