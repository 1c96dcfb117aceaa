/* import: rows by RFC 4180, cells, names, mappings, and that nothing is left behind when it fails. */
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "import/parts.h"
#include "unit/support.h"

/* ---- rows: each field in brackets, `|` between them; `!` for a wrong row ------------------------------------------- */

static void rows_of(const char *bytes, size_t length, char separator, char quote, char *found, size_t size)
{
    char folder[64], path[128];
    struct rows rows;
    size_t used = 0;
    folder_make(folder, sizeof folder);
    file_write(folder, "a.csv", bytes, length);
    snprintf(path, sizeof path, "%s/a.csv", folder);
    ck_assert(rows_open(&rows, allocator_standard(), path));
    rows_signs(&rows, separator, quote);
    found[0] = '\0';
    for (enum row_state state = rows_next(&rows); state != ROW_END; state = rows_next(&rows)) {
        ck_assert_int_ne(state, ROW_STOP);
        if (state == ROW_WRONG)
            used += (size_t)snprintf(found + used, size - used, "!");
        for (uint32_t i = 0; state == ROW_GOOD && i < rows.count; i++)
            used += (size_t)snprintf(found + used, size - used, "%s[%.*s]", i ? "," : "", (int)rows.fields[i].length, rows.fields[i].bytes);
        used += (size_t)snprintf(found + used, size - used, ";");
    }
    rows_close(&rows);
    folder_remove(folder);
}

static void expect_rows(const char *text, const char *wanted)
{
    char found[4096];
    rows_of(text, strlen(text), ',', '"', found, sizeof found);
    ck_assert_msg(strcmp(found, wanted) == 0, "%s: %s, wanted %s", text, found, wanted);
}

START_TEST(rows_follow_rfc_4180)
{
    expect_rows("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "[aaa],[bbb],[ccc];[zzz],[yyy],[xxx];");
    expect_rows("aaa,bbb,ccc\r\nzzz,yyy,xxx", "[aaa],[bbb],[ccc];[zzz],[yyy],[xxx];");
    expect_rows("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nz,y,x", "[aaa],[b\r\nbb],[ccc];[z],[y],[x];");
    expect_rows("\"aaa\",\"b\"\"bb\",\"ccc\"", "[aaa],[b\"bb],[ccc];");
    expect_rows("\"\"\"\"\n", "[\"];");
    expect_rows("\"\",,\"\"\n", "[],[],[];");
    expect_rows("a, b \n\n,\n", "[a],[ b ];[];[],[];");
    expect_rows("\"a,b\",c\n", "[a,b],[c];");
    expect_rows("", "");
    expect_rows("a\rb\n", "[a\rb];");
}
END_TEST

START_TEST(a_byte_order_mark_is_no_part_of_the_first_field)
{
    expect_rows("\xef\xbb\xbf\"a\",b\n", "[a],[b];");
    expect_rows("\xef\xbb\xbf", "");
}
END_TEST

START_TEST(a_wrong_row_ends_at_its_line)
{
    expect_rows("a,b\"c\nd\n", "!;[d];");
    expect_rows("\"a\"b,c\nd\n", "!;[d];");
    expect_rows("\"a\nb\nc", "!;[b];[c];");
    expect_rows("\"a", "!;");
}
END_TEST

START_TEST(other_signs_part_and_quote)
{
    char found[256];
    const char *text = "~01001~^~Butter, 5^~^1.5^\r\n~a~~b~^^^\n";
    rows_of(text, strlen(text), '^', '~', found, sizeof found);
    ck_assert_str_eq(found, "[01001],[Butter, 5^],[1.5],[];[a~b],[],[],[];");
    rows_of("5\" pipe\t\"x\n", 11, '\t', '\0', found, sizeof found);
    ck_assert_str_eq(found, "[5\" pipe],[\"x];");
}
END_TEST

static enum row_state only_row(size_t filler, bool quoted)
{
    char folder[64], path[128];
    struct rows rows;
    char *bytes = malloc(filler + 8);
    ck_assert_ptr_nonnull(bytes);
    memset(bytes, 'x', filler);
    if (quoted)
        bytes[0] = '"';
    memcpy(bytes + filler, "\nb\n", 4);
    folder_make(folder, sizeof folder);
    file_write(folder, "a.csv", bytes, filler + 3);
    snprintf(path, sizeof path, "%s/a.csv", folder);
    ck_assert(rows_open(&rows, allocator_standard(), path));
    rows_signs(&rows, ',', '"');
    enum row_state state = rows_next(&rows);
    if (state == ROW_GOOD)
        ck_assert_uint_eq(rows.fields[0].length, filler);
    rows_close(&rows);
    folder_remove(folder);
    free(bytes);
    return state;
}

START_TEST(a_row_has_its_limit)
{
    ck_assert_int_eq(only_row(LIMIT_IMPORT_ROW_BYTES, false), ROW_GOOD);
    ck_assert_int_eq(only_row(LIMIT_IMPORT_ROW_BYTES + 100000, false), ROW_WRONG);
    ck_assert_int_eq(only_row(LIMIT_IMPORT_ROW_BYTES + 100000, true), ROW_WRONG);
}
END_TEST

START_TEST(columns_have_their_limit)
{
    static char found[3 * LIMIT_IMPORT_COLUMNS + 100];
    char commas[LIMIT_IMPORT_COLUMNS + 1];
    memset(commas, ',', sizeof commas);
    commas[LIMIT_IMPORT_COLUMNS - 1] = '\n';
    rows_of(commas, LIMIT_IMPORT_COLUMNS, ',', '"', found, sizeof found);
    ck_assert_uint_eq(strlen(found), 3 * LIMIT_IMPORT_COLUMNS);     /* as many fields, and the commas between them */
    commas[LIMIT_IMPORT_COLUMNS - 1] = ',';
    commas[LIMIT_IMPORT_COLUMNS] = '\n';
    rows_of(commas, LIMIT_IMPORT_COLUMNS + 1, ',', '"', found, sizeof found);
    ck_assert_str_eq(found, "!;");
}
END_TEST

/* Pieces are 256 KiB: rows that lie across their ends come out whole. */
START_TEST(rows_across_pieces_are_whole)
{
    char folder[64], path[128];
    struct rows rows;
    char *text = text_repeat("", "\"a \"\"quoted\"\" one\r\nin two lines\",17,\"\"\r\n", 20000, "");
    folder_make(folder, sizeof folder);
    file_write(folder, "a.csv", text, strlen(text));
    snprintf(path, sizeof path, "%s/a.csv", folder);
    ck_assert(rows_open(&rows, allocator_standard(), path));
    rows_signs(&rows, ',', '"');
    for (uint32_t i = 0; i < 20000; i++) {
        ck_assert_int_eq(rows_next(&rows), ROW_GOOD);
        ck_assert_uint_eq(rows.count, 3);
        ck_assert(text_is(rows.fields[0], "a \"quoted\" one\r\nin two lines") && text_is(rows.fields[1], "17"));
    }
    ck_assert_int_eq(rows_next(&rows), ROW_END);
    rows_close(&rows);
    folder_remove(folder);
    free(text);
}
END_TEST

/* ---- numbers ------------------------------------------------------------------------------------------------------ */

static void expect_number(const char *text, bool comma, enum cell kind, double wanted)
{
    double value;
    enum cell found = number_read(text_of(text), comma, &value);
    ck_assert_msg(found == kind, "`%s` is %d, wanted %d", text, found, kind);
    if (kind == CELL_NUMBER)
        ck_assert_msg(value == wanted, "`%s` is %.17g", text, value);
}

START_TEST(cells_hold_numbers_or_nothing)
{
    expect_number("", false, CELL_EMPTY, 0);
    expect_number("  \t", false, CELL_EMPTY, 0);
    expect_number("0", false, CELL_NUMBER, 0);
    expect_number("0.00", false, CELL_NUMBER, 0);
    expect_number(" 12.50 ", false, CELL_NUMBER, 12.5);
    expect_number(".5", false, CELL_NUMBER, 0.5);
    expect_number("7.", false, CELL_NUMBER, 7);
    expect_number("1e-05", false, CELL_NUMBER, 1e-05);
    expect_number("1.5E+2", false, CELL_NUMBER, 150);
    expect_number("0.1234567890123456789", false, CELL_NUMBER, 0.1234567890123456789);
    expect_number("1,5", true, CELL_NUMBER, 1.5);
    expect_number("0,1234567890123456789", true, CELL_NUMBER, 0.1234567890123456789);
}
END_TEST

START_TEST(what_is_no_number_is_told_apart)
{
    static const char *const words[] = { "nan", "NaN", "inf", "tr", "1,5", "1.5.2", "0x10", "1e", "e5", "5 mg", ".", "+", "1 000", "<1" };
    for (size_t i = 0; i < COUNT_OF(words); i++)
        expect_number(words[i], false, CELL_WORDS, 0);
    expect_number("1.5", true, CELL_WORDS, 0);
    expect_number("-1", false, CELL_NEGATIVE, 0);
    expect_number("-0.1", false, CELL_NEGATIVE, 0);
    expect_number("1e999", false, CELL_ABSURD, 0);
    expect_number("1e99999999999", false, CELL_ABSURD, 0);
    expect_number("1e-999", false, CELL_ABSURD, 0);             /* above nothing, so it must not become zero */
    expect_number("1000000001", false, CELL_ABSURD, 0);
    expect_number("1000000000", false, CELL_NUMBER, 1e9);
}
END_TEST

static void expect_written(double value, const char *wanted)
{
    struct buffer buffer;
    buffer_open(&buffer, allocator_standard());
    number_add(&buffer, value);
    ck_assert_msg(buffer.length == strlen(wanted) && memcmp(buffer.bytes, wanted, buffer.length) == 0, "%.17g is written %.*s, wanted %s", value, (int)buffer.length,
                  buffer.bytes, wanted);
    buffer_close(&buffer);
}

START_TEST(numbers_are_written_in_plain_digits)
{
    expect_written(0, "0");
    expect_written(5, "5");
    expect_written(0.5, "0.5");
    expect_written(12.345, "12.345");
    expect_written(0.000001, "0.000001");
    expect_written(1e-5, "0.00001");
    expect_written(1e-8, "0.00000001");
    expect_written(1e9, "1000000000");
    expect_written(0.1, "0.1");
    expect_written(1.0 / 3, "0.333333333333333");
    expect_written(100.25, "100.25");
}
END_TEST

/* What is written is read again as the same number, whatever it was. */
START_TEST(written_numbers_come_back)
{
    uint64_t seed = 1;
    struct buffer buffer;
    buffer_open(&buffer, allocator_standard());
    for (int i = 0; i < 100000; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        double value = (double)(seed >> 40) / pow(10, (double)(seed % 9)), back;
        buffer.length = 0;
        number_add(&buffer, value);
        ck_assert_int_eq(number_read((struct text){ buffer.bytes, (uint32_t)buffer.length }, false, &back), CELL_NUMBER);
        ck_assert_msg(back == value, "%.17g came back as %.17g", value, back);
    }
    buffer_close(&buffer);
}
END_TEST

/* ---- names ---------------------------------------------------------------------------------------------------------- */

static void expect_words(const char *text, const char *wanted)
{
    struct buffer buffer;
    buffer_open(&buffer, allocator_standard());
    words_add(&buffer, text_of(text), LIMIT_NAME_WORDS);
    ck_assert_msg(buffer.length == strlen(wanted) && memcmp(buffer.length ? buffer.bytes : "", wanted, buffer.length) == 0, "%s: %.*s, wanted %s", text, (int)buffer.length,
                  buffer.length ? buffer.bytes : "", wanted);
    buffer_close(&buffer);
}

START_TEST(names_become_bare_words)
{
    expect_words("Beans, white, canned (drained)", "beans white canned drained");
    expect_words("Cook's  SOUP\r\nwith\trice", "cooks soup with rice");
    expect_words("Milk, 2% milkfat", "milk 2% milkfat");
    expect_words("Milk, 1.5 % fat", "milk 1.5 fat");
    expect_words("80/20 beef; half & half", "80/20 beef half half");
    expect_words("Jalapeño ÉCLAIR™", "jalapeño éclair");
    expect_words("\"quoted\" {braces} #hash =is?", "quoted braces hash is");
    expect_words("... ! --", "");
}
END_TEST

START_TEST(names_hold_nothing_that_reads_as_something_else)
{
    expect_words("x 2,300 g", "x 2 300 g");
    expect_words("1/0 cup", "1 0 cup");
    expect_words("version 1.5.2", "version 1.5 2");
    expect_words("6 to 5 pieces", "6 5 pieces");
    expect_words("1e3 cells", "1 e3 cells");
    expect_words("0123456789012", "012345678 9012");
    expect_words("20-25 pieces", "20 25 pieces");
}
END_TEST

START_TEST(a_name_takes_24_words)
{
    expect_words("a b c d e f g h i j k l m n o p q r s t u v w x", "a b c d e f g h i j k l m n o p q r s t u v w x");
    expect_words("a b c d e f g h i j k l m n o p q r s t u v w x y", "a b c d e f g h i j k l m n o p q r s t u v w x");
}
END_TEST

/* ---- whole imports ---------------------------------------------------------------------------------------------------- */

static int files_in(const char *folder)
{
    int count = 0;
    DIR *directory = opendir(folder);
    if (!directory)
        return -1;
    for (struct dirent *entry = readdir(directory); entry; entry = readdir(directory))
        count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    closedir(directory);
    return count;
}

struct trial {
    char folder[64], table[128], map[128], out[128], file[200];
    struct buffer said;
};

static void trial_open(struct trial *trial, const char *table, const char *map)
{
    folder_make(trial->folder, sizeof trial->folder);
    file_write(trial->folder, "t.csv", table, strlen(table));
    file_write(trial->folder, "t.map", map, strlen(map));
    snprintf(trial->table, sizeof trial->table, "%s/t.csv", trial->folder);
    snprintf(trial->map, sizeof trial->map, "%s/t.map", trial->folder);
    snprintf(trial->out, sizeof trial->out, "%s/out", trial->folder);
    snprintf(trial->file, sizeof trial->file, "%s/t-0001.quern", trial->out);
    buffer_open(&trial->said, allocator_standard());
}

static void trial_close(struct trial *trial)
{
    buffer_close(&trial->said);
    if (files_in(trial->out) >= 0)
        folder_remove(trial->out);
    folder_remove(trial->folder);
}

static enum quern_status trial_run(struct trial *trial, struct budget *budget, bool skip)
{
    struct quern_options options = { .resize = budget ? budget_resize : NULL, .resize_context = budget };
    struct quern_session *session = quern_open(&options);
    if (!session)
        return QUERN_FAILED;
    struct quern_import what = { .path = trial->table, .out = trial->out, .map = trial->map, .skip_bad = skip };
    enum quern_status status = quern_import(session, &what, sink_buffer, &trial->said);
    buffer_add(&trial->said, "", 1);
    quern_close(session);
    return status;
}

#define NA_MAP "import table {\n number column \"id\"\n name column \"food\"\n per 100 g { sodium column \"na\" mg; iron column \"fe\" g; energy column \"e\" kJ }\n}\n"

START_TEST(units_are_converted_and_empty_is_unknown)
{
    struct trial trial;
    struct buffer text;
    buffer_open(&text, allocator_standard());
    trial_open(&trial, "id,food,na,fe,e\n7,mill soup,12.5,0.0035,418.4\n8,mill bread,0,,\n", NA_MAP);
    ck_assert_int_eq(trial_run(&trial, NULL, false), QUERN_OK);
    ck_assert_int_eq(file_read(-100, trial.file, 1 << 20, &text), STATUS_OK);
    ck_assert_ptr_nonnull(strstr(text.bytes, "food mill soup {\n    per 100 g {\n        energy 100 kcal; sodium 12.5 mg; iron 3.5 mg\n    }\n    source \"t.csv 7\"\n}\n"));
    ck_assert_ptr_nonnull(strstr(text.bytes, "food mill bread {\n    per 100 g {\n        sodium 0 mg\n    }\n    source \"t.csv 8\"\n}\n"));
    buffer_close(&text);
    trial_close(&trial);
}
END_TEST

/* The bounds of what 100 g can hold: 100 g of a nutrient and 1,000 kcal (4,184 kJ) are the last that pass. */
START_TEST(a_food_holds_no_more_than_its_weight)
{
    static const char *const rows[] = { "1,a,100000,,", "1,a,100001,,", "1,a,,100,", "1,a,,100.1,", "1,a,,,4184", "1,a,,,4185", "1,a,nan,,", "1,a,1e999,,", "1,a,-1,," };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        char table[200];
        struct trial trial;
        snprintf(table, sizeof table, "id,food,na,fe,e\n%s\n", rows[i]);
        trial_open(&trial, table, NA_MAP);
        bool good = i < 6 && i % 2 == 0;
        ck_assert_msg((trial_run(&trial, NULL, false) == QUERN_OK) == good, "%s: %s", rows[i], trial.said.bytes);
        ck_assert(good || strstr(trial.said.bytes, "t.csv: row 2: error: "));
        ck_assert_int_eq(files_in(trial.out), good ? 1 : -1);
        trial_close(&trial);
    }
}
END_TEST

START_TEST(mappings_are_held_to_their_form)
{
    static const char *const maps[] = {
        "", "import table { }", "import table { name column \"food\" }", "import sheet { name column \"food\" }",
        "import table { name column \"food\"; per 100 g { sodium column \"na\" } }",
        "import table { name column \"food\"; per 100 g { sodium column \"na\" kcal } }",
        "import table { name column \"food\"; per 100 g { sodium column \"na\" ml } }",
        "import table { name column \"food\"; per 100 g { kryptonite column \"na\" mg } }",
        "import table { name column \"food\"; per 100 ml { sodium column \"na\" mg } }",
        "import table { name column \"food\"; per 1 serving { sodium column \"na\" mg } }",
        "import table { name column \"food\"; per 100 g { sodium column \"na\" mg; sodium column \"fe\" mg } }",
        "import table { name column \"food\"; per 100 g { sodium column \"na\" mg }; per 50 g { iron column \"fe\" mg } }",
        "import table { name column \"food\"; frobs column \"na\"; per 100 g { sodium column \"na\" mg } }",
        "import table { name column \"food\"; per 100 g { sodium column \"nope\" mg } }",
        "import table { name column 0; per 100 g { sodium column \"na\" mg } }",
        "import table { name column 99; per 100 g { sodium column \"na\" mg } }",
        "import table { name column \"food\"; group nowhere; per 100 g { sodium column \"na\" mg } }",
        "import table { name column \"food\"; separator \"ab\"; per 100 g { sodium column \"na\" mg } }",
        "import table { name column \"food\"; per 100 g { sodium column \"na\" mg }",
    };
    for (size_t i = 0; i < COUNT_OF(maps); i++) {
        struct trial trial;
        trial_open(&trial, "id,food,na,fe,e\n1,a,1,1,1\n", maps[i]);
        ck_assert_msg(trial_run(&trial, NULL, true) == QUERN_FINDINGS, "%s", maps[i]);
        ck_assert_msg(trial.said.length > 1, "%s: nothing was said", maps[i]);
        ck_assert_int_eq(files_in(trial.out), -1);
        trial_close(&trial);
    }
}
END_TEST

/* Whichever allocation fails, nothing leaks and nothing is written. */
START_TEST(memory_may_fail_anywhere)
{
    enum quern_status status = QUERN_FAILED;
    long nth = 0;
    for (; status == QUERN_FAILED && nth < 5000; nth++) {
        struct budget budget = { .left = nth };
        struct trial trial;
        trial_open(&trial, "id,food,na,fe,e\n1,a,1,1,1\n2,\"b \"\"x\"\"\",2,2,2\n3,a,1,,\n4,c,x,,\n", NA_MAP);
        status = trial_run(&trial, &budget, true);
        ck_assert_int_eq(budget.live, 0);
        ck_assert_int_eq(files_in(trial.out), status == QUERN_FAILED ? -1 : 1);
        trial_close(&trial);
    }
    ck_assert_int_eq(status, QUERN_OK);
    ck_assert_int_gt(nth, 10);
}
END_TEST

static bool count_pieces(void *context, unsigned long long done, unsigned long long whole)
{
    ck_assert_uint_le(done, whole);
    return ++*(int *)context < 2;
}

START_TEST(an_import_that_is_stopped_leaves_nothing)
{
    int pieces = 0;
    struct trial trial;
    char *table = text_repeat("id,food,na,fe,e\n", "1,a,1,1,1\n", 100000, "");
    trial_open(&trial, table, NA_MAP);
    struct quern_session *session = quern_open(NULL);
    struct quern_import what = { .path = trial.table, .out = trial.out, .map = trial.map, .skip_bad = true,
                                 .progress = count_pieces, .progress_context = &pieces };
    ck_assert_int_eq(quern_import(session, &what, sink_buffer, &trial.said), QUERN_FAILED);
    ck_assert_ptr_nonnull(strstr(quern_failure(session), "stopped"));
    ck_assert_int_eq(pieces, 2);
    ck_assert_int_eq(files_in(trial.out), -1);
    quern_close(session);
    trial_close(&trial);
    free(table);
}
END_TEST

/* Foods of about 100 bytes: 16 MiB are full after some 160,000, and no food is cut in two. */
START_TEST(files_are_at_most_16_mib)
{
    struct trial trial;
    struct stat facts;
    char second[200];
    FILE *table;
    trial_open(&trial, "", NA_MAP);
    table = fopen(trial.table, "w");
    ck_assert_ptr_nonnull(table);
    fputs("id,food,na,fe,e\n", table);
    for (int i = 0; i < 200000; i++)
        fprintf(table, "%d,mill food kind %d,1,,\n", i, i);
    fclose(table);
    ck_assert_int_eq(trial_run(&trial, NULL, false), QUERN_OK);
    ck_assert_int_eq(files_in(trial.out), 2);
    ck_assert_int_eq(stat(trial.file, &facts), 0);
    ck_assert_int_le(facts.st_size, LIMIT_IMPORT_FILE_BYTES);
    ck_assert_int_gt(facts.st_size, LIMIT_IMPORT_FILE_BYTES - 200);
    snprintf(second, sizeof second, "%s/t-0002.quern", trial.out);
    struct buffer text;
    buffer_open(&text, allocator_standard());
    ck_assert_int_eq(file_read(-100, second, LIMIT_IMPORT_FILE_BYTES, &text), STATUS_OK);
    ck_assert(strncmp(text.bytes, "# Imported from t.csv.\n\nfood mill food kind ", 44) == 0);
    buffer_close(&text);
    trial_close(&trial);
}
END_TEST

/* ---- tables of a folder ------------------------------------------------------------------------------------------------- */

static void folder_write(const char *folder, const char *name, const char *text)
{
    file_write(folder, name, text, strlen(text));
}

/* Everything but the big table. */
static void folder_start(char *folder, size_t size)
{
    folder_make(folder, size);
    folder_write(folder, "nutrient.csv", "id,name,unit_name,nutrient_nbr\n1,Sodium,MG,307\n2,Potassium,MG,306\n3,Iron,MG,303\n4,Ash,G,207\n");
    folder_write(folder, "measure_unit.csv", "id,name\n1000,cup\n");
    folder_write(folder, "food_portion.csv", "fdc_id,amount,measure_unit_id,portion_description,modifier,gram_weight\n1,1,1000,,,81\n");
}

START_TEST(memory_may_fail_anywhere_in_a_folder)
{
    enum quern_status status = QUERN_FAILED;
    long nth = 0;
    for (; status == QUERN_FAILED && nth < 5000; nth++) {
        char folder[64];
        struct budget budget = { .left = nth };
        struct trial trial;
        folder_start(folder, sizeof folder);
        folder_write(folder, "food.csv", "fdc_id,data_type,description\n1,branded_food,a\n2,branded_food,b\n3,sample_food,b\n1,branded_food,c\n");
        folder_write(folder, "food_nutrient.csv", "fdc_id,nutrient_id,amount\n2,1,5\n1,1,6\n2,2,x\n9,1,1\n1,4,2\n3,1,1\n");
        trial_open(&trial, "", "");
        struct quern_options options = { .resize = budget_resize, .resize_context = &budget };
        struct quern_session *session = quern_open(&options);
        struct quern_import what = { .path = folder, .out = trial.out, .skip_bad = true };
        if (session)
            status = quern_import(session, &what, sink_buffer, &trial.said);
        quern_close(session);
        ck_assert_int_eq(budget.live, 0);
        ck_assert_int_eq(files_in(trial.out), status == QUERN_FAILED ? -1 : 1);
        trial_close(&trial);
        folder_remove(folder);
    }
    ck_assert_int_eq(status, QUERN_OK);
    ck_assert_int_gt(nth, 20);
}
END_TEST

/* ---- memory ---------------------------------------------------------------------------------------------------------------- */

#ifndef __SANITIZE_ADDRESS__            /* a sanitizer keeps what was freed */

#define MEGABYTE 1000000l
#define GROWTH_KIB 6144l

/* The peak of all children so far, in KiB; the largest comes last here. */
static long run_program(const char *path, const char *map, const char *out)
{
    struct rusage usage;
    int status;
    const char *program = getenv("QUERN") ? getenv("QUERN") : "build/quern";
    pid_t child = fork();
    if (child == 0) {
        freopen("/dev/null", "w", stdout);
        execl(program, program, "import", path, "--out", out, map ? "--map" : NULL, map, (char *)NULL);
        _exit(99);
    }
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert_int_eq(WEXITSTATUS(status), 0);
    ck_assert_int_eq(getrusage(RUSAGE_CHILDREN, &usage), 0);
    return usage.ru_maxrss;
}

/* A single table of so many bytes; one name in ten is taken. */
static long peak_of_table(long bytes)
{
    struct trial trial;
    char filler[301];
    memset(filler, 'x', 300);
    filler[300] = '\0';
    trial_open(&trial, "", NA_MAP);
    FILE *table = fopen(trial.table, "w");
    ck_assert_ptr_nonnull(table);
    fputs("id,food,na,fe,e,remark\n", table);
    for (long i = 0, written = 0; written < bytes; i++)
        written += fprintf(table, "%ld,\"mill food, of the \"\"long\"\" kind, as the class of that year wrote it down %ld\",%ld.5,0.00%ld,,\"%s\"\n",
                           i, i % 10 ? i : 0, i % 900, i % 1000, filler);
    ck_assert_int_eq(fclose(table), 0);
    long peak = run_program(trial.table, trial.map, trial.out);
    ck_assert_int_gt(files_in(trial.out), 0);
    trial_close(&trial);
    return peak;
}

/* Tables of a folder, amounts in an order in which no food has its own together. */
static long peak_of_folder(long bytes)
{
    char folder[64], path[128], filler[101];
    struct trial trial;
    memset(filler, 'x', 100);
    filler[100] = '\0';
    folder_start(folder, sizeof folder);
    trial_open(&trial, "", "");
    long foods = bytes / 400;                   /* with three amounts of some 125 bytes each */
    snprintf(path, sizeof path, "%s/food.csv", folder);
    FILE *table = fopen(path, "w");
    ck_assert_ptr_nonnull(table);
    fputs("fdc_id,data_type,description\n", table);
    for (long i = 1; i <= foods; i++)
        fprintf(table, "%ld,branded_food,mill food %ld\n", i, i);
    ck_assert_int_eq(fclose(table), 0);
    snprintf(path, sizeof path, "%s/food_nutrient.csv", folder);
    table = fopen(path, "w");
    fputs("footnote,fdc_id,nutrient_id,amount\n", table);
    for (int nutrient = 1; nutrient <= 3; nutrient++) {
        for (long i = foods; i >= 1; i--)
            fprintf(table, "\"%s\",%ld,%d,%ld.25\n", filler, i, nutrient, i % 300);
    }
    ck_assert_int_eq(fclose(table), 0);
    long peak = run_program(folder, NULL, trial.out);
    ck_assert_int_gt(files_in(trial.out), 0);
    trial_close(&trial);
    folder_remove(folder);
    return peak;
}

START_TEST(a_table_ten_times_as_long_takes_no_more_memory)
{
    long small = peak_of_table(20 * MEGABYTE), large = peak_of_table(200 * MEGABYTE);
    printf("peak memory of a table: 20 MB %ld KiB, 200 MB %ld KiB\n", small, large);
    ck_assert_int_gt(small, 1000);
    ck_assert_int_lt(large - small, GROWTH_KIB);
}
END_TEST

START_TEST(a_folder_ten_times_as_large_takes_no_more_memory)
{
    long small = peak_of_folder(20 * MEGABYTE), large = peak_of_folder(200 * MEGABYTE);
    printf("peak memory of a folder: 20 MB %ld KiB, 200 MB %ld KiB\n", small, large);
    ck_assert_int_gt(small, 1000);
    ck_assert_int_lt(large - small, GROWTH_KIB);
}
END_TEST

#endif

int main(void)
{
    Suite *suite = suite_create("import");
    TCase *all = tcase_create("all");
    tcase_set_timeout(all, 60);
    tcase_add_test(all, rows_follow_rfc_4180);
    tcase_add_test(all, a_byte_order_mark_is_no_part_of_the_first_field);
    tcase_add_test(all, a_wrong_row_ends_at_its_line);
    tcase_add_test(all, other_signs_part_and_quote);
    tcase_add_test(all, a_row_has_its_limit);
    tcase_add_test(all, columns_have_their_limit);
    tcase_add_test(all, rows_across_pieces_are_whole);
    tcase_add_test(all, cells_hold_numbers_or_nothing);
    tcase_add_test(all, what_is_no_number_is_told_apart);
    tcase_add_test(all, numbers_are_written_in_plain_digits);
    tcase_add_test(all, written_numbers_come_back);
    tcase_add_test(all, names_become_bare_words);
    tcase_add_test(all, names_hold_nothing_that_reads_as_something_else);
    tcase_add_test(all, a_name_takes_24_words);
    tcase_add_test(all, units_are_converted_and_empty_is_unknown);
    tcase_add_test(all, a_food_holds_no_more_than_its_weight);
    tcase_add_test(all, mappings_are_held_to_their_form);
    tcase_add_test(all, memory_may_fail_anywhere);
    tcase_add_test(all, an_import_that_is_stopped_leaves_nothing);
    tcase_add_test(all, files_are_at_most_16_mib);
    tcase_add_test(all, memory_may_fail_anywhere_in_a_folder);
#ifndef __SANITIZE_ADDRESS__
    tcase_add_test(all, a_table_ten_times_as_long_takes_no_more_memory);
    tcase_add_test(all, a_folder_ten_times_as_large_takes_no_more_memory);
#endif
    suite_add_tcase(suite, all);
    return suite_run(suite);
}
