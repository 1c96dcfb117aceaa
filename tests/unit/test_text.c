/* text: from bytes to trees. Expected trees are written from docs/language.md. */
#include "unit/support.h"

#include <math.h>
#include <pthread.h>
#include <stdlib.h>
#ifdef __GLIBC__
#include <malloc.h>             /* after a header that tells which library this is */
#endif

#include "quern.tab.h"
#include "text/scan.h"

/* ---- a tree as one line of text: `[2~3] cups water | boiled in<pasta water>` */

static void dump_quantity(struct buffer *out, const struct quantity *quantity)
{
    const char *percent = quantity->is_percent ? "%" : "";
    double scale = quantity->is_percent ? 100 : 1;
    switch (quantity->kind) {
    case QUANTITY_NONE: return;
    case QUANTITY_NUMBER: buffer_print(out, "[%.9g%s]", quantity->low * scale, percent); return;
    case QUANTITY_RANGE: buffer_print(out, "[%.9g~%.9g%s]", quantity->low * scale, quantity->high * scale, percent); return;
    case QUANTITY_SOME: buffer_add_string(out, "[some]"); return;
    case QUANTITY_BLANK: buffer_add_string(out, "[?]"); return;
    case QUANTITY_BAD: buffer_add_string(out, "[bad]"); return;
    }
}

static void dump_items(struct buffer *out, struct text text, const struct item *items)
{
    for (; items; items = items->next) {
        struct text written = span_text(text, items->span);
        if (out->length && !strchr("(< ", out->bytes[out->length - 1]))
            buffer_add_string(out, " ");
        if (items->kind == ITEM_STRING)
            buffer_print(out, "'%.*s'", (int)written.length, written.bytes);
        else if (items->kind == ITEM_NUMBER || items->kind == ITEM_RANGE)
            dump_quantity(out, items->quantity);
        else if (items->kind == ITEM_WORD)
            buffer_add(out, written.bytes, written.length);
        else
            buffer_add_string(out, items->kind == ITEM_GROUP ? "(" : "in<");
        dump_items(out, text, items->inside);
        if (items->kind == ITEM_GROUP || items->kind == ITEM_BATH)
            buffer_add_string(out, items->kind == ITEM_GROUP ? ")" : ">");
    }
}

static void dump_phrases(struct buffer *out, struct text text, struct phrases phrases, const char *between)
{
    for (const struct phrase *phrase = phrases.first; phrase; phrase = phrase->next) {
        buffer_add_string(out, between);
        dump_items(out, text, phrase->items);
    }
}

static void dump_bound(struct buffer *out, struct text text, const struct node *node)
{
    static const char *const words[] = { "", " most ", " least ", " under ", " over ", " between " };
    buffer_add_string(out, node->kind == NODE_LIMIT ? "limit" : "goal");
    dump_items(out, text, node->items.first);
    buffer_add_string(out, words[node->comparison]);
    dump_quantity(out, &node->quantity);
    if (node->comparison == COMPARE_BETWEEN)
        dump_quantity(out, &node->second);
    dump_items(out, text, node->unit.first);
    if (node->per.first) {
        buffer_add_string(out, " per");
        dump_items(out, text, node->per.first);
    }
}

static void dump_node(struct buffer *out, struct text text, const struct node *node);

static void dump_nodes(struct buffer *out, struct text text, const struct node *node, const char *between)
{
    for (; node; node = node->next) {
        dump_node(out, text, node);
        buffer_add_string(out, node->next ? between : "");
    }
}

static void dump_node(struct buffer *out, struct text text, const struct node *node)
{
    if (node->kind == NODE_LIMIT || node->kind == NODE_GOAL) {
        dump_bound(out, text, node);
        return;
    }
    if (node->kind == NODE_BROKEN)
        buffer_add_string(out, "BROKEN");
    if (node->kind == NODE_ALTERNATIVE) {
        buffer_add_string(out, "or ");
        dump_nodes(out, text, node->body, " AND ");
        return;
    }
    buffer_add_string(out, node->kind == NODE_PER ? "per " : "");
    if (node->kind == NODE_INGREDIENT || node->kind == NODE_PORTION)
        dump_quantity(out, &node->quantity);
    dump_items(out, text, node->items.first);
    dump_phrases(out, text, node->names, " + ");
    if (node->kind != NODE_INGREDIENT && node->kind != NODE_PORTION) {
        bool apart = node->quantity.kind != QUANTITY_NONE && out->length && out->bytes[out->length - 1] != ' ';
        buffer_add_string(out, apart ? " " : "");
        dump_quantity(out, &node->quantity);
    }
    if (node->kind == NODE_PORTION) {
        buffer_add_string(out, " = ");
        dump_quantity(out, &node->second);
    }
    dump_items(out, text, node->unit.first);
    if (node->has_body) {
        buffer_add_string(out, " { ");
        dump_nodes(out, text, node->body, "; ");
        buffer_add_string(out, " }");
    }
    dump_phrases(out, text, node->phrases, " | ");
}

/* The tree of one line inside a recipe. */
static void expect_line(const char *line, const char *expected)
{
    char text[512], codes[256];
    struct parsed parsed;
    struct buffer out;
    snprintf(text, sizeof text, "recipe \"A\" {\n%s\n}\n", line);
    parsed_open(&parsed, text, strlen(text));
    ck_assert_int_eq(parsed.status, STATUS_OK);
    findings_list(&parsed.findings, codes, sizeof codes);
    ck_assert_msg(parsed.findings.count == 0, "`%s` for: %s", codes, line);
    ck_assert_ptr_nonnull(parsed.first);
    buffer_open(&out, allocator_standard());
    buffer_add(&out, "", 0);
    dump_nodes(&out, parsed.parse.text, parsed.first->body, "; ");
    ck_assert_msg(out.bytes && strcmp(out.bytes, expected) == 0, "`%s` became\n  %s, expected\n  %s", line, out.bytes, expected);
    buffer_close(&out);
    parsed_close(&parsed);
}

/* ---- settling: each row of the table in the language's reference */

static const struct {
    const char *line, *tree;
} lines[] = {
    /* `to`: a range only between two numbers or percents */
    { "2 to 3 cups water", "[2~3] cups water" },
    { "2-3 cups water", "[2~3] cups water" },
    { "2\xe2\x80\x93" "3 cups water", "[2~3] cups water" },
    { "1/2 to 3/4 cup water", "[0.5~0.75] cup water" },
    { "2 cups ready to eat kale", "[2] cups ready to eat kale" },
    { "1 cup to go coffee", "[1] cup to go coffee" },
    { "2 cups kale, simmered 20 to 25 minutes", "[2] cups kale | simmered [20~25] minutes" },
    { "keeps sodium 54% (38% to 62%)", "keeps sodium [54%] ([38~62%])" },
    { "keeps sodium 38% to 62%", "keeps sodium [38~62%]" },
    { "2 cups well-known kale", "[2] cups well-known kale" },
    { "up to 1/4 cup water", "[0~0.25] cup water" },
    { "1 cup up to date kale", "[1] cup up to date kale" },
    /* `in`: a bath only before a quoted name after a comma */
    { "12 oz spaghetti, boiled in \"pasta water\"", "[12] oz spaghetti | boiled in<'pasta water'>" },
    { "1 can tuna in water", "[1] can tuna in water" },
    { "1 can tuna in \"water\"", "[1] can tuna in 'water'" },
    { "2 cups kale, chopped in pieces", "[2] cups kale | chopped in pieces" },
    /* `and`: alternatives only before an amount; after a comma it is a comma */
    { "1 cup half and half", "[1] cup half and half" },
    { "1 cup rice and beans, drained and rinsed", "[1] cup rice and beans | drained | rinsed" },
    { "or 1/4 tsp salt and 2 tsp lemon juice", "or [0.25] tsp salt AND [2] tsp lemon juice" },
    { "or 1 tsp salt and some thyme and up to 1 tsp sage", "or [1] tsp salt AND [some] thyme AND [0~1] tsp sage" },
    { "or 1 cup half and half", "or [1] cup half and half" },
    /* `or`: starts a line */
    { "or 1 tsp salt", "or [1] tsp salt" },
    { "1 bunch parsley or cilantro", "[1] bunch parsley or cilantro" },
    /* `%`: number and % are one */
    { "1 cup 2% milk", "[1] cup [2%] milk" },
    { "2% milk", "[2%] milk" },
    { "1 lb beef, kept 15% to 30%", "[1] lb beef | kept [15~30%]" },
    { "keeps sodium 110%", "keeps sodium [110%]" },
    /* parentheses are items anywhere */
    { "2 cans (15 oz) white beans", "[2] cans ([15] oz) white beans" },
    { "2 (15 oz) cans white beans", "[2] ([15] oz) cans white beans" },
    { "2 onions (300 g)", "[2] onions ([300] g)" },
    { "? (up to 1) tsp salt", "[?] ([0~1]) tsp salt" },
    { "1 cup kale, chopped (see note, below)", "[1] cup kale | chopped (see note below)" },
    /* `per`: at the start of a statement, or after a bound */
    { "limit sodium at most 400 mg per serving", "limit sodium most [400] mg per serving" },
    { "limit sodium at least 400 mg per 100 g", "limit sodium least [400] mg per [100] g" },
    { "limit sodium under 400 mg", "limit sodium under [400] mg" },
    { "goal sodium over 400 mg", "goal sodium over [400] mg" },
    { "limit sodium between 300 mg and 400 mg per serving", "limit sodium between [300][400] mg per serving" },
    { "limit sodium from cook-added at most 400 mg", "limit sodium from cook-added most [400] mg" },
    { "limit sodium to potassium at most 1 by mass", "limit sodium to potassium most [1] by mass" },
    { "1 cup per cent kale", "[1] cup per cent kale" },
    { "per 100 g { energy 88 kcal; sodium 278 mg }", "per [100] g { energy [88] kcal; sodium [278] mg }" },
    /* at, at most, some, between, under, over elsewhere are words */
    { "1 cup kale, at room temperature", "[1] cup kale | at room temperature" },
    { "1 cup kale at most risk", "[1] cup kale at most risk" },
    { "1 cup some kale", "[1] cup some kale" },
    { "some black pepper", "[some] black pepper" },
    { "1 cup between under over kale", "[1] cup between under over kale" },
    { "2 eggs, over easy", "[2] eggs | over easy" },
    /* portions */
    { "1 cup = 240 g", "[1] cup = [240] g" },
    { "1 cup drained = 152 g", "[1] cup drained = [152] g" },
    { "1 can = 15.5 oz", "[1] can = [15.5] oz" },
    { "1 slice = 1/16", "[1] slice = [0.0625]" },
    /* no word is reserved in names */
    { "1 cup recipe food limit serves", "[1] cup recipe food limit serves" },
    { "1 lb 80/20 ground beef", "[1] lb [4] ground beef" },
    { "1 tsp cream of tartar", "[1] tsp cream of tartar" },
    { "4 cups \"House vegetable stock\"", "[4] cups 'House vegetable stock'" },
    { "4 cups \xe2\x80\x9cHouse stock\xe2\x80\x9d", "[4] cups 'House stock'" },
    { "1 cup kale, \"my own words\", chopped", "[1] cup kale | 'my own words' | chopped" },
    { "15oz kale", "[15] oz kale" },
    { "1\xc2\xa0" "cup kale", "[1] cup kale" },
    /* a statement ends at a newline, a semicolon or a brace */
    { "1 cup kale; 2 cups water", "[1] cup kale; [2] cups water" },
    { "part \"A\" { 1 cup kale }", "'A' { [1] cup kale }" },
    { "part \"A\" { 1 cup kale }, kept 20%", "'A' { [1] cup kale } | kept [20%]" },
    { "part \"A\"\n{\n1 cup kale\n}", "'A' { [1] cup kale }" },
    { "1 cup kale # not this, (nor {this", "[1] cup kale" },
};

START_TEST(words_mean_what_their_neighbours_say)
{
    expect_line(lines[_i].line, lines[_i].tree);
}
END_TEST

/* ---- numbers */

static const struct {
    const char *written;
    double value;
} numbers[] = {
    { "2", 2 }, { "0", 0 }, { "007", 7 }, { "0.5", 0.5 }, { "15.25", 15.25 }, { "1/2", 0.5 }, { "3/4", 0.75 }, { "1 1/2", 1.5 },
    { "1-1/2", 1.5 }, { "2  3/4", 2.75 }, { "\xc2\xbd", 0.5 }, { "\xc2\xbc", 0.25 }, { "\xc2\xbe", 0.75 }, { "1\xc2\xbd", 1.5 },
    { "1 \xc2\xbd", 1.5 }, { "\xe2\x85\x93", 1.0 / 3 }, { "\xe2\x85\x94", 2.0 / 3 }, { "\xe2\x85\x9b", 0.125 }, { "\xe2\x85\x9e", 0.875 },
    { "\xe2\x85\x95", 0.2 }, { "\xe2\x85\x99", 1.0 / 6 }, { "\xe2\x85\x90", 1.0 / 7 }, { "\xe2\x85\x91", 1.0 / 9 }, { "\xe2\x85\x92", 0.1 },
    { "1\xe2\x81\x84" "2", 0.5 }, { "2 1\xe2\x81\x84" "4", 2.25 }, { "0.1", 0.1 }, { "1000000000", 1e9 }, { "0.000001", 0.000001 },
    { "123456789.123456", 123456789.123456 },
};

START_TEST(every_form_of_number_has_its_value)
{
    char text[128];
    struct parsed parsed;
    snprintf(text, sizeof text, "%s cups kale\n", numbers[_i].written);
    parsed_open(&parsed, text, strlen(text));
    ck_assert_uint_eq(parsed.findings.count, 0);
    ck_assert_int_eq(parsed.first->quantity.kind, QUANTITY_NUMBER);
    ck_assert_msg(parsed.first->quantity.low == numbers[_i].value, "%s is %.17g", numbers[_i].written, parsed.first->quantity.low);
    ck_assert(span_is(&parsed, parsed.first->quantity.span, numbers[_i].written));
    ck_assert(span_is(&parsed, parsed.first->items.first->span, "cups"));
    parsed_close(&parsed);
}
END_TEST

static const struct {
    const char *written, *code, *offers;        /* offers: what a fix must write, or NULL for none */
} bad_numbers[] = {
    { ".5", "number-form", "0.5" },
    { "2,300", "digit-comma", NULL },
    { "1,5", "digit-comma", NULL },
    { "1,234,567", "digit-comma", NULL },
    { "1/0", "division-by-zero", NULL },
    { "1 1/0", "division-by-zero", NULL },
    { "1e5", "number-form", NULL },
    { "1E-5", "number-form", NULL },
    { "1.2.3", "number-form", NULL },
    { "1000000001", "number-too-large", NULL },
    { "99999999999999999999999999", "number-too-large", NULL },
    { "0.1234567890123456", "number-too-large", NULL },
    { "3 to 2", "backward-range", NULL },
    { "50% to 20%", "backward-range", NULL },
};

START_TEST(a_number_that_cannot_be_is_one_finding)
{
    char text[128], codes[256];
    struct parsed parsed;
    snprintf(text, sizeof text, "recipe \"A\" {\n%s cups kale\n1 cup water\n}\n", bad_numbers[_i].written);
    parsed_open(&parsed, text, strlen(text));
    findings_list(&parsed.findings, codes, sizeof codes);
    ck_assert_str_eq(codes, bad_numbers[_i].code);
    ck_assert_int_eq(parsed.first->body->quantity.kind, QUANTITY_BAD);
    ck_assert(span_is(&parsed, parsed.findings.first->place.span, bad_numbers[_i].written));
    const struct finding_fix *fix = parsed.findings.first->fixes;
    ck_assert_msg(!fix == !bad_numbers[_i].offers, "%s fix for %s", fix ? "a" : "no", bad_numbers[_i].written);
    if (fix)
        ck_assert(text_is(fix->replacement, bad_numbers[_i].offers));
    parsed_close(&parsed);
}
END_TEST

START_TEST(a_comma_before_three_digits_offers_both_readings)
{
    char help[512] = "";
    struct parsed parsed;
    struct buffer words;
    parsed_open(&parsed, "2,300 mg salt\n", 14);
    buffer_open(&words, allocator_standard());
    ck_assert(finding_help(&words, parsed.findings.first));
    snprintf(help, sizeof help, "%s", words.bytes);
    ck_assert_msg(strstr(help, "2300") && strstr(help, "2.300"), "%s", help);
    buffer_close(&words);
    parsed_close(&parsed);
}
END_TEST

/* ---- tokens */

static const char sample[] =
    "\xef\xbb\xbf# Kitchen\r\n"
    "## A soup.\n## It is good.\n"
    "recipe \"White \xe2\x80\x98" "bean\xe2\x80\x99 soup\" { # here\n"
    "    serves 6 of 1 1/2 cups; makes 900 g\n"
    "    2 cans (15 oz) white beans, drained and rinsed\n"
    "    1\xc2\xbd tbsp olive oil\t# the good one\r\n"
    "    2 to 3 cloves garlic, sliced, \"thinly\"\n"
    "    up to 1/4 tsp salt\n"
    "        or 1/4 tsp flake salt and 2 tsp lemon juice\n"
    "    some black pepper, optional\n"
    "    4 cups \"House stock\"; 1 cup 2% milk\n"
    "    ? (up to 1) tsp salt\n"
    "    1\xe2\x80\x93" "2 jalape\xc3\xb1os, \xc2\xbd-inch dice\n"
    "    bath \"water\" { 4 quarts water; 2 tbsp coarse salt }\n"
    "    12 oz spaghetti, boiled in \"water\"\n"
    "    part \"Top\" { 1 cup kale }, kept 15% to 30%\n"
    "    limit sodium at most 400 mg per serving\n"
    "    goal potassium between 300 mg and 600 mg per 100 g\n"
    "    claim \"low sodium\"\n"
    "    method {\n        \"Stir.\"\n    }\n"
    "}\n\n"
    "food mill beans canned {\n"
    "    also garden beans canned; group canned legumes; as whole can\n"
    "    per 100 g { energy 88 kcal; sodium 278 mg (250 mg to 300 mg) }\n"
    "    1 cup drained = 152 g\n"
    "    source \"made up\"\n"
    "}\n"
    "label \"Shop broth\" { serving 1 cup = 240 ml; sodium 580 mg }\n"
    "treatment drained, rinsed { for canned legumes; keeps sodium 54% (38% to 62%) }\n"
    "policy \"House\" { limit sodium at most 600 mg per serving }\n";

/* Marks every byte that a token covers; a token that a neighbour took in lies inside that neighbour. */
static void mark_tokens(const struct parse *parse, unsigned char *covered)
{
    uint32_t end = 0;
    for (uint32_t i = 0; i < parse->tokens.count; i++) {
        const struct token *token = &parse->tokens.at[i];
        if (token->made)
            continue;
        ck_assert_uint_le(token->start + token->length, parse->text.length);
        if (token->kind != TOKEN_GAP)
            ck_assert_msg(token->start >= end, "token %u begins at %u, before %u", i, token->start, end);
        end = token->start + token->length > end ? token->start + token->length : end;
        memset(covered + token->start, 1, token->length);
    }
}

static bool is_blank_byte(const unsigned char *bytes)
{
    return *bytes == ' ' || *bytes == '\t' || *bytes == '\r' || (bytes[0] == 0xc2 && bytes[1] == 0xa0)
        || (bytes[0] == 0xa0 && bytes[-1] == 0xc2);
}

static void expect_covered(const char *text, size_t length)
{
    struct parsed parsed;
    unsigned char *covered = calloc(length + 1, 1);
    parsed_open(&parsed, "", 0);
    ck_assert(buffer_reserve(&parsed.buffer, length + 2));
    memcpy(parsed.buffer.bytes, text, length);
    memset(parsed.buffer.bytes + length, 0, 2);
    ck_assert_int_eq(parse_start(&parsed.parse, 0, parsed.buffer.bytes, (uint32_t)length), STATUS_OK);
    while (!parsed.parse.ended) {
        ck_assert_int_eq(settle_stretch(&parsed.parse), STATUS_OK);
        mark_tokens(&parsed.parse, covered);
    }
    for (size_t i = 0; i < length; i++) {
        bool blank = is_blank_byte((const unsigned char *)parsed.buffer.bytes + i);
        ck_assert_msg(covered[i] || blank, "byte %zu (`%.12s`) is in no token", i, parsed.buffer.bytes + i);
    }
    free(covered);
    parsed_close(&parsed);
}

START_TEST(tokens_and_the_blanks_between_them_are_the_file)
{
    expect_covered(sample, sizeof sample - 1);
    char *long_text = text_repeat("", sample + 3, 40, "");
    expect_covered(long_text, strlen(long_text));
    free(long_text);
}
END_TEST

START_TEST(the_sample_has_no_syntax_finding)
{
    expect_syntax(sample, "");
}
END_TEST

START_TEST(the_file_is_as_it_was_after_it_was_read)
{
    struct parsed parsed;
    parsed_open(&parsed, sample + 3, sizeof sample - 4);
    ck_assert_mem_eq(parsed.buffer.bytes, sample + 3, sizeof sample - 4);
    parsed_close(&parsed);
}
END_TEST

/* ---- recovery */

static const struct {
    const char *text, *codes;
} mistakes[] = {
    { "", "" },
    { "\n\n# only a comment", "" },
    { "recipe \"A\" {\n1 cup kale\n}", "" },
    { "recipe \"A\" { 1 cup kale }", "" },
    { "recipe \"A\" {\n1 cup kale\n", "missing-brace" },
    { "recipe \"A\" {\n1 cup kale\n}\n}\n", "extra-brace" },
    { "recipe \"A\" {\n1 cup kale (raw\n2 cups water\n}\n", "missing-parenthesis" },
    { "recipe \"A\" {\n1 cup kale) raw\n2 cups water\n}\n", "extra-parenthesis" },
    { "recipe \"A\" {\n1 cup \"House stock\n2 cups water\n}\n", "missing-quote" },
    { "recipe \"A {\n1 cup kale\n}\n", "missing-quote" },
    { "recipe \"A\" {\n1 cup kale\nrecipe \"B\" {\n1 cup kale\n}\n", "missing-brace" },
    { "recipe \"A\" {\npart \"x\" {\n1 cup kale\nrecipe \"B\" {\n1 cup kale\n}\n", "missing-brace" },
    { "recipe \"A\" {\n1 = 2\n1 cup kale = \n1 cup water\n}\n", "syntax syntax" },
    { "recipe \"A\" {\nlimit sodium at most\nlimit at most 5 mg\n1 cup kale,, chopped\n, chopped\n}\n", "syntax syntax syntax syntax" },
    { "recipe \"A\" {\n1 cup kale (raw\n2,300 mg salt\n1 cup) water\n.5 tsp salt\n1 = 3\n1 cup water\n}\n",
      "missing-parenthesis digit-comma extra-parenthesis number-form syntax" },
    { "recipe \"A\" {\n= 3\n}\nrecipe \"B\" {\n= 3\n}\nfood kale {\n= 3\n}\n", "syntax syntax syntax" },
    { "}}}\n", "extra-brace extra-brace extra-brace" },
    { "recipe \"A\" {\n\xff\xfe cup kale\n}\n", "bad-utf8" },
    { "recipe \"A\" {\n1 cup \x01 kale\x02\n}\n", "bad-character bad-character" },
    { "recipe \"A\" {\n1 cup \xe2\x80\xaekale\n}\n", "bad-character" },
    { "recipe \"A\" {\n1 cup \xc2\x85kale\n}\n", "bad-character" },
};

START_TEST(each_mistake_is_one_finding_and_the_rest_is_read)
{
    expect_syntax(mistakes[_i].text, mistakes[_i].codes);
}
END_TEST

START_TEST(a_nul_is_a_finding_with_its_place)
{
    static const char text[] = "recipe \"A\" {\n1 cup \0kale\n1 cup water\n}\n";
    char codes[128];
    struct parsed parsed;
    parsed_open(&parsed, text, sizeof text - 1);
    findings_list(&parsed.findings, codes, sizeof codes);
    ck_assert_str_eq(codes, "bad-character");
    ck_assert_uint_eq(parsed.findings.first->place.span.start, 19);
    ck_assert_uint_eq(parsed.findings.first->place.span.end, 20);
    parsed_close(&parsed);
}
END_TEST

START_TEST(what_follows_a_missing_brace_is_still_a_declaration)
{
    struct parsed parsed;
    static const char text[] = "recipe \"A\" {\n1 cup kale\nrecipe \"B\" {\n2 cups kale\n}\n";
    parsed_open(&parsed, text, sizeof text - 1);
    ck_assert_ptr_nonnull(parsed.first);
    ck_assert_ptr_nonnull(parsed.first->next);
    ck_assert_ptr_null(parsed.first->next->next);
    ck_assert(span_is(&parsed, parsed.first->next->items.first->span, "B"));
    ck_assert_double_eq(parsed.first->next->body->quantity.low, 2);
    parsed_close(&parsed);
}
END_TEST

/* ---- limits */

static void nest(uint32_t depth, const char *codes)
{
    char *inner = text_repeat("recipe \"A\" {\n", "part \"x\" {\n", depth - 1, "1 cup kale\n");
    char *text = text_repeat(inner, "}\n", depth, "");
    expect_syntax(text, codes);
    free(text);
    free(inner);
}

START_TEST(blocks_nest_up_to_the_limit_and_one_more_is_a_finding)
{
    nest(LIMIT_NESTING, "");
    nest(LIMIT_NESTING + 1, "too-deep");
}
END_TEST

START_TEST(a_hundred_thousand_open_braces_are_given_up_at_the_limit)
{
    static const char *const openers[] = { "{", "{\n", "part \"x\" {", "recipe \"x\" {\n", "a {\n" };
    for (size_t i = 0; i < COUNT_OF(openers); i++) {
        struct parsed parsed;
        char *text = text_repeat("", openers[i], 100000, "");
        parsed_open(&parsed, text, strlen(text));
        ck_assert_int_eq(parsed.status, STATUS_OK);
        ck_assert_uint_gt(parsed.findings.count, 0);
        if (i != 3)                     /* `recipe` at the start of a line closes the one before it */
            ck_assert_msg(parsed.findings.count <= LIMIT_NESTING + 2, "%u findings for %s", parsed.findings.count, openers[i]);
        parsed_close(&parsed);
        free(text);
    }
}
END_TEST

/* ---- long files: in a small stack, in time that grows with the length */

#define MANY 50000

/* Tiny blocks and sanitizers are not meant to be quick: time is measured in the plain build. */
#if defined QUERN_SMALL || defined __SANITIZE_ADDRESS__
#define IS_QUICK false
#else
#define IS_QUICK true
#endif

static const struct {
    const char *head, *middle, *foot;
} constructs[] = {
    { "recipe \"A\" {\n", "1 cup kale\n", "}\n" },
    { "recipe \"A\" {\n1 cup ", "kale ", "\n}\n" },
    { "recipe \"A\" {\n1 cup kale", ", chopped", "\n}\n" },
    { "recipe \"A\" {\n1 cup kale ", "(1 oz) ", "\n}\n" },
    { "recipe \"A\" {\n1 cup kale ", "(", "\n}\n" },
    { "recipe \"A\" {\n1 cup kale ", "(a", "\n}\n" },
    { "recipe \"A\" {\n1 cup kale ", ")", "\n}\n" },
    { "recipe \"A\" {\n1 cup (", "a, ", ")\n}\n" },
    { "recipe \"A\" {\nor 1 cup kale", " and 1 cup water", "\n}\n" },
    { "recipe \"A\" {\n1 cup ", "\"x\" ", "\n}\n" },
    { "recipe \"A\" {\n1 cup \"", "x", "\n}\n" },
    { "recipe \"A\" {\n", "\"\n", "}\n" },
    { "recipe \"A\" {\n", "part \"x\" { 1 cup kale }\n", "}\n" },
    { "recipe \"A\" {\n", "part \"x\" { 1 cup kale }, boiled\n", "}\n" },
    { "recipe \"A\" {\n", "bath \"x\" { 1 cup water }\n", "}\n" },
    { "recipe \"A\" {\nbath \"x\" { 9 gallons water }\n", "1 cup kale, boiled in \"x\"\n", "}\n" },
    { "recipe \"A\" {\nbath \"x\" { 9 gallons water }\n", "1 tsp \"x\"\n", "}\n" },
    { "", "recipe \"A\" { 1 cup kale }\n", "" },
    { "", "recipe \"A\" {\n", "" },
    { "", "}\n", "" },
    { "", ";", "" },
    { "", "# comment\n", "" },
    { "", "## comment\n", "recipe \"A\" { 1 cup kale }\n" },
    { "recipe \"A\" { ", "#", "\n}" },
    { "", "= ", "\n" },
    { "", "=\n", "" },
    { "", "9", " cups kale\n" },
    { "", "1,", " cups kale\n" },
    { "", "1.", " cups kale\n" },
    { "", "1/", " cups kale\n" },
    { "", "1 ", " cups kale\n" },
    { "", "- ", " cups kale\n" },
    { "", "\xc2\xbd", " cups kale\n" },
    { "", "to ", "\n" },
    { "", "up to ", "\n" },
    { "limit a", " at most", "\n" },
    { "limit a at most 1", " per", "\n" },
    { "limit a between 1", " and 2", "\n" },
    { "", "\xff", "\n" },
    { "", "\xff a", "\n" },
    { "", "\xe2\x80\xae", "\n" },
    { "food a {\nalso ", "kale, ", "x\n}\n" },
    { "food kale {\n", "1 cup = 3 g\n", "}\n" },
    { "treatment a", ", b", " { changes nothing }\n" },
    { "", "\r", "" },
    { "", "\r\n", "" },
    { "recipe \"A\" {\nmethod {\n", "\"Stir.\"\n", "}\n}\n" },
};

struct long_text {
    char *text;
    enum status status;
    uint32_t findings;
};

static void *parse_long(void *context)
{
    struct long_text *work = context;
    struct parsed *parsed = malloc(sizeof *parsed);
    parsed_open(parsed, work->text, strlen(work->text));
    work->status = parsed->status;
    work->findings = parsed->findings.count;
    parsed_close(parsed);
    free(parsed);
    return NULL;
}

static void *check_long(void *context)
{
    struct long_text *work = context;
    struct buffer out;
    struct quern_session *session = quern_open(NULL);
    buffer_open(&out, allocator_standard());
    enum quern_status status = quern_check_text(session, "long.quern", work->text, strlen(work->text), QUERN_AS_TEXT, sink_buffer, &out);
    work->status = status == QUERN_OK || status == QUERN_FINDINGS ? STATUS_OK : STATUS_NO_MEMORY;
    buffer_close(&out);
    quern_close(session);
    return NULL;
}

static enum status run_in_small_stack(void *(*work)(void *), char *text)
{
    struct long_text context = { .text = text };
    pthread_attr_t attributes;
    pthread_t thread;
    pthread_attr_init(&attributes);
    ck_assert_int_eq(pthread_attr_setstacksize(&attributes, 1 << 20), 0);
    ck_assert_int_eq(pthread_create(&thread, &attributes, work, &context), 0);
    pthread_join(thread, NULL);
    pthread_attr_destroy(&attributes);
    return context.status;
}

START_TEST(every_construct_may_stand_fifty_thousand_times)
{
    char *text = text_repeat(constructs[_i].head, constructs[_i].middle, MANY, constructs[_i].foot);
    ck_assert_msg(run_in_small_stack(parse_long, text) == STATUS_OK, "parsing `%s` × %d", constructs[_i].middle, MANY);
    ck_assert_msg(run_in_small_stack(check_long, text) == STATUS_OK, "checking `%s` × %d", constructs[_i].middle, MANY);
    free(text);
}
END_TEST

/* Memory that one round leaves is not used again by the next: else a short text, which fits into it, pays for no page,
 * and a long one for all of them. */
static void take_fresh_memory(void)
{
#ifdef __GLIBC__
    mallopt(M_MMAP_THRESHOLD, 1 << 16);
    mallopt(M_TRIM_THRESHOLD, 1 << 16);
#endif
}

static double time_of(void *(*work)(void *), int i, size_t count)
{
    double best = 1e9;
    take_fresh_memory();
    char *text = text_repeat(constructs[i].head, constructs[i].middle, count, constructs[i].foot);
    for (int round = 0; round < 3; round++) {
        struct long_text context = { .text = text };
        double start = seconds_now();
        work(&context);
        double spent = seconds_now() - start;
        best = spent < best ? spent : best;
    }
    free(text);
    return best;
}

/* Four times the text may take eight times as long, and 50 ms of noise; a square would take sixteen times. */
START_TEST(time_grows_with_the_length)
{
    void *(*const works[])(void *) = { parse_long, check_long };
    for (size_t i = 0; i < COUNT_OF(works); i++) {
        double small = time_of(works[i], _i, MANY / 4), large = time_of(works[i], _i, MANY);
        ck_assert_msg(large <= 8 * small + 0.05, "`%s` %s: %.3f s for %d, %.3f s for %d", constructs[_i].middle,
                      i ? "checked" : "parsed", small, MANY / 4, large, MANY);
    }
}
END_TEST

/* ---- damage */

START_TEST(a_file_cut_anywhere_is_read_to_its_end)
{
    for (size_t length = 0; length < sizeof sample; length++) {
        struct parsed parsed;
        parsed_open(&parsed, sample, length);
        ck_assert_int_eq(parsed.status, STATUS_OK);
        for (const struct finding *finding = parsed.findings.first; finding; finding = finding->next) {
            ck_assert_uint_le(finding->place.span.start, finding->place.span.end);
            ck_assert_uint_le(finding->place.span.end, length);
        }
        parsed_close(&parsed);
    }
}
END_TEST

START_TEST(any_byte_may_be_any_other)
{
    static const char others[] = "{}\"()\n0,/%;#=-.\xff\x80\xe2\x01 ";
    char text[sizeof sample];
    for (size_t at = 0; at < sizeof sample - 1; at++) {
        memcpy(text, sample, sizeof sample);
        text[at] = others[(at * 7 + (size_t)_i) % (sizeof others - 1)];
        struct parsed parsed;
        parsed_open(&parsed, text, sizeof sample - 1);
        ck_assert_int_eq(parsed.status, STATUS_OK);
        parsed_close(&parsed);
    }
}
END_TEST

START_TEST(a_kitchen_cut_anywhere_is_checked_to_its_end)
{
    struct quern_session *session = quern_open(NULL);
    for (size_t length = 0; length < sizeof sample; length++) {
        struct buffer out;
        buffer_open(&out, allocator_standard());
        enum quern_status status = quern_check_text(session, "cut.quern", sample, length, QUERN_AS_JSON, sink_buffer, &out);
        ck_assert_msg(status == QUERN_OK || status == QUERN_FINDINGS, "cut at %zu: %s", length, quern_failure(session));
        buffer_close(&out);
    }
    quern_close(session);
}
END_TEST

/* ---- lines and columns */

START_TEST(columns_count_characters_and_lines_end_in_any_way)
{
    static const char text[] = "ab\r\n\xc3\xa9x\n\nz";
    struct text whole = { text, sizeof text - 1 };
    struct line_index index;
    uint32_t line, column;
    ck_assert(line_index_make(&index, allocator_standard(), whole));
    line_index_find(&index, whole, 0, &line, &column);
    ck_assert_uint_eq(line * 100 + column, 101);
    line_index_find(&index, whole, 6, &line, &column);
    ck_assert_uint_eq(line * 100 + column, 202);
    line_index_find(&index, whole, 8, &line, &column);
    ck_assert_uint_eq(line * 100 + column, 301);
    line_index_find(&index, whole, 10, &line, &column);
    ck_assert_uint_eq(line * 100 + column, 402);
    ck_assert(text_is(line_text(&index, whole, 1), "ab"));
    ck_assert(text_is(line_text(&index, whole, 2), "\xc3\xa9x"));
    ck_assert(text_is(line_text(&index, whole, 3), ""));
    ck_assert(text_is(line_text(&index, whole, 4), "z"));
    line_index_close(&index);
}
END_TEST

/* Two lines of 4000 two-byte letters: column n of each stands at byte 2 (n - 1), asked for in any order. */
START_TEST(columns_of_long_lines_do_not_depend_on_what_was_asked_before)
{
    enum { LETTERS = 4000, LINE = 2 * LETTERS + 1 };
    static const uint32_t letters[] = { 0, 10, 3999, 700, 700, 2000, 2600, 2100, 3999, 1 };
    static char text[2 * LINE];
    struct text whole = { text, sizeof text };
    struct line_index index;
    uint32_t line, column;
    for (uint32_t i = 0; i < sizeof text; i++)
        text[i] = i % LINE == LINE - 1 ? '\n' : (i % LINE) % 2 ? '\xa9' : '\xc3';
    ck_assert(line_index_make(&index, allocator_standard(), whole));
    for (uint32_t i = 0; i < 2 * COUNT_OF(letters); i++) {
        uint32_t wanted = 1 + i / COUNT_OF(letters), letter = letters[i % COUNT_OF(letters)];
        line_index_find(&index, whole, (wanted - 1) * LINE + 2 * letter, &line, &column);
        ck_assert_uint_eq(line, wanted);
        ck_assert_uint_eq(column, letter + 1);
    }
    line_index_close(&index);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("text");
    TCase *trees = tcase_create("trees"), *recovery = tcase_create("recovery"), *size = tcase_create("size"), *damage = tcase_create("damage");
    tcase_set_timeout(size, 120);
    tcase_set_timeout(damage, 120);
    tcase_add_loop_test(trees, words_mean_what_their_neighbours_say, 0, COUNT_OF(lines));
    tcase_add_loop_test(trees, every_form_of_number_has_its_value, 0, COUNT_OF(numbers));
    tcase_add_loop_test(trees, a_number_that_cannot_be_is_one_finding, 0, COUNT_OF(bad_numbers));
    tcase_add_test(trees, a_comma_before_three_digits_offers_both_readings);
    tcase_add_test(trees, tokens_and_the_blanks_between_them_are_the_file);
    tcase_add_test(trees, the_sample_has_no_syntax_finding);
    tcase_add_test(trees, the_file_is_as_it_was_after_it_was_read);
    tcase_add_test(trees, columns_count_characters_and_lines_end_in_any_way);
    tcase_add_test(trees, columns_of_long_lines_do_not_depend_on_what_was_asked_before);
    tcase_add_loop_test(recovery, each_mistake_is_one_finding_and_the_rest_is_read, 0, COUNT_OF(mistakes));
    tcase_add_test(recovery, a_nul_is_a_finding_with_its_place);
    tcase_add_test(recovery, what_follows_a_missing_brace_is_still_a_declaration);
    tcase_add_test(size, blocks_nest_up_to_the_limit_and_one_more_is_a_finding);
    tcase_add_test(size, a_hundred_thousand_open_braces_are_given_up_at_the_limit);
    tcase_add_loop_test(size, every_construct_may_stand_fifty_thousand_times, 0, COUNT_OF(constructs));
    if (IS_QUICK)
        tcase_add_loop_test(size, time_grows_with_the_length, 0, COUNT_OF(constructs));
    tcase_add_test(damage, a_file_cut_anywhere_is_read_to_its_end);
    tcase_add_loop_test(damage, any_byte_may_be_any_other, 0, 21);
    tcase_add_test(damage, a_kitchen_cut_anywhere_is_checked_to_its_end);
    suite_add_tcase(suite, trees);
    suite_add_tcase(suite, recovery);
    suite_add_tcase(suite, size);
    suite_add_tcase(suite, damage);
    return suite_run(suite);
}
