/* The looks: what a report's blocks become as text, Markdown and HTML, whatever people wrote. */
#include <stdlib.h>
#include <string.h>

#include "output/sheet.h"
#include "unit/support.h"

static const char hostile[] = "<script>alert(1)</script> & \"q\" 'a' | `x` *b* _c_ [l](u) http://a \x1b[31m \xe2\x80\xae end";

struct drawn {
    struct writer writer;
    struct sheet sheet;
    struct buffer out;
};

static void open_drawn(struct drawn *drawn, enum look look)
{
    buffer_open(&drawn->out, allocator_standard());
    writer_open(&drawn->writer, allocator_standard(), sink_buffer, &drawn->out);
    sheet_open(&drawn->sheet, look, &drawn->writer, allocator_standard());
}

static const char *close_drawn(struct drawn *drawn)
{
    sheet_close(&drawn->sheet);
    ck_assert(writer_flush(&drawn->writer));
    writer_close(&drawn->writer);
    buffer_add(&drawn->out, "", 1);
    return drawn->out.bytes;
}

/* Every block once, with the same words in every place where words can stand. */
static void draw_all(struct sheet *sheet, const char *words)
{
    struct text text = text_of(words);
    struct sheet_column columns[] = { { text, false }, { text, true } };
    struct sheet_cell cells[] = { { .words = text, .link = text_of("a.html"), .depth = 2 }, { .words = text, .value = 0.1, .has_value = true, .bar = 0.5, .tone = TONE_BROKEN } };
    struct sheet_piece pieces[] = { { text, text, 1, 0 }, { text, text, 3, 1 } };
    struct sheet_mark marks[] = { { text, 10, TONE_KEPT } };
    sheet_begin(sheet, text);
    sheet_links(sheet, text, (struct sheet_link[]){ { text, text_of("") }, { text, text_of("b.html") } }, 2);
    sheet_heading(sheet, 2, text);
    for (int manner = MANNER_PLAIN; manner <= MANNER_EXACT; manner++)
        sheet_paragraph(sheet, (enum manner)manner, text);
    sheet_list(sheet, true);
    sheet_item(sheet, text);
    sheet_list_end(sheet);
    sheet_heading(sheet, 3, text);
    sheet_table(sheet, text, columns, 2);
    sheet_row(sheet, cells);
    sheet_table_end(sheet);
    sheet_bar(sheet, text, pieces, 2);
    sheet_scale(sheet, text, range_of(1, 2, 3), true, text, marks, 1);
    sheet_end(sheet);
}

START_TEST(hostile_words_make_no_element_and_no_attribute)
{
    struct drawn drawn;
    open_drawn(&drawn, LOOK_HTML);
    draw_all(&drawn.sheet, hostile);
    const char *page = close_drawn(&drawn);
    ck_assert_ptr_null(strstr(page, "<script"));
    ck_assert_ptr_null(strstr(page, "\"q\""));
    ck_assert_ptr_null(strchr(page, '\x1b'));
    ck_assert_ptr_null(strstr(page, "\xe2\x80\xae"));
    ck_assert_ptr_nonnull(strstr(page, "<h1>&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;q&quot; &#39;a&#39;"));
    buffer_close(&drawn.out);
}
END_TEST

START_TEST(a_page_loads_nothing_and_names_its_style_by_hash)
{
    struct drawn drawn;
    open_drawn(&drawn, LOOK_HTML);
    draw_all(&drawn.sheet, "Oat soup");
    const char *page = close_drawn(&drawn);
    ck_assert_ptr_nonnull(strstr(page, "content=\"default-src 'none'; style-src 'sha256-"));
    ck_assert_ptr_null(strstr(page, " style="));
    ck_assert_ptr_null(strstr(page, " src="));
    ck_assert_ptr_null(strstr(page, "@import"));
    buffer_close(&drawn.out);
}
END_TEST

START_TEST(figures_on_a_page_are_those_of_the_json)
{
    struct drawn drawn;
    struct sheet_column columns[] = { { text_of("line"), false }, { text_of("sodium"), true } };
    open_drawn(&drawn, LOOK_HTML);
    sheet_begin(&drawn.sheet, text_of("Oat soup"));
    sheet_table(&drawn.sheet, text_of("Lines"), columns, 2);
    sheet_row(&drawn.sheet, (struct sheet_cell[]){ cell_words(text_of("oats")), cell_figure(text_of("0.1 mg"), 0.1) });
    sheet_row(&drawn.sheet, (struct sheet_cell[]){ cell_words(text_of("salt")), cell_figure(text_of("0.3 mg"), 0.1 + 0.2) });
    sheet_table_end(&drawn.sheet);
    sheet_end(&drawn.sheet);
    const char *page = close_drawn(&drawn);
    ck_assert_ptr_nonnull(strstr(page, "<th scope=\"row\">oats</th><td class=\"n\"><data value=\"0.1\">0.1 mg</data></td>"));
    ck_assert_ptr_nonnull(strstr(page, "<data value=\"0.30000000000000004\">0.3 mg</data>"));
    buffer_close(&drawn.out);
}
END_TEST

START_TEST(a_bar_is_in_shares_of_the_whole)
{
    struct drawn drawn;
    open_drawn(&drawn, LOOK_HTML);
    draw_all(&drawn.sheet, "Oat soup");
    const char *page = close_drawn(&drawn);
    ck_assert_ptr_nonnull(strstr(page, "x=\"0.00%\" width=\"25.00%\" height=\"2.25em\" fill=\"url(#q0)\""));
    ck_assert_ptr_nonnull(strstr(page, "x=\"25.00%\" width=\"75.00%\" height=\"2.25em\" fill=\"url(#q1)\""));
    buffer_close(&drawn.out);
}
END_TEST

/* Of 10, and a little more, which is 10.5: 2 is 19.05 percent of that, 10 is 95.24. */
START_TEST(a_scale_begins_at_zero_and_holds_its_marks)
{
    struct drawn drawn;
    open_drawn(&drawn, LOOK_HTML);
    draw_all(&drawn.sheet, "Oat soup");
    const char *page = close_drawn(&drawn);
    ck_assert_ptr_nonnull(strstr(page, "<rect class=\"value\" y=\".3em\" width=\"19.05%\""));
    ck_assert_ptr_nonnull(strstr(page, "<line class=\"tick t1\" x1=\"95.24%\" x2=\"95.24%\""));
    ck_assert_ptr_nonnull(strstr(page, "text-anchor=\"end\">1</text>"));
    ck_assert_ptr_nonnull(strstr(page, "<li><b>1</b> <span class=\"kept\">"));
    buffer_close(&drawn.out);
}
END_TEST

START_TEST(what_nobody_knows_is_no_end_of_a_range)
{
    struct drawn drawn;
    open_drawn(&drawn, LOOK_HTML);
    sheet_begin(&drawn.sheet, text_of("Oat soup"));
    sheet_scale(&drawn.sheet, text_of("sodium"), (struct range){ 5, 0, strtod("inf", NULL) }, false, text_of("at least 5 mg"), NULL, 0);
    sheet_end(&drawn.sheet);
    const char *page = close_drawn(&drawn);
    ck_assert_ptr_nonnull(strstr(page, "<data value=\"5\">at least 5 mg</data>"));
    ck_assert_ptr_nonnull(strstr(page, "class=\"whisker open\" x1=\"95.24%\" x2=\"100.00%\""));
    ck_assert_ptr_null(strstr(page, "inf"));
    buffer_close(&drawn.out);
}
END_TEST

START_TEST(hostile_words_make_no_markup_in_markdown)
{
    struct drawn drawn;
    open_drawn(&drawn, LOOK_MARKDOWN);
    sheet_begin(&drawn.sheet, text_of(hostile));
    sheet_paragraph(&drawn.sheet, MANNER_PLAIN, text_of("    1. # a"));
    sheet_paragraph(&drawn.sheet, MANNER_PLAIN, text_of("# a - b 1.5"));
    sheet_paragraph(&drawn.sheet, MANNER_EXACT, text_of("```\nx"));
    sheet_end(&drawn.sheet);
    ck_assert_str_eq(close_drawn(&drawn),
                     "# &lt;script&gt;alert(1)&lt;/script&gt; &amp; \"q\" 'a' \\| \\`x\\` \\*b\\* \\_c\\_ \\[l\\](u) http\\://a "
                     "\xef\xbf\xbd\\[31m \xef\xbf\xbd end\n\n1\\. # a\n\n\\# a - b 1.5\n\n````text\n```\nx\n````\n\n");
    buffer_close(&drawn.out);
}
END_TEST

START_TEST(a_table_in_markdown_keeps_its_columns)
{
    struct drawn drawn;
    struct sheet_column columns[] = { { text_of("line"), false }, { text_of("mg"), true } };
    open_drawn(&drawn, LOOK_MARKDOWN);
    sheet_table(&drawn.sheet, text_of(""), columns, 2);
    sheet_row(&drawn.sheet, (struct sheet_cell[]){ cell_words(text_of("a | b")), cell_figure(text_of("5"), 5) });
    sheet_table_end(&drawn.sheet);
    ck_assert_str_eq(close_drawn(&drawn), "| line | mg |\n| --- | ---: |\n| a \\| b | 5 |\n\n");
    buffer_close(&drawn.out);
}
END_TEST

/* Several documents in one page: one h1, one end, and the levels below follow one another. */
START_TEST(documents_in_one_page_are_articles_of_it)
{
    struct drawn drawn;
    open_drawn(&drawn, LOOK_HTML);
    sheet_begin_all(&drawn.sheet, text_of("Two"));
    for (int i = 0; i < 2; i++) {
        sheet_begin(&drawn.sheet, text_of("Soup"));
        sheet_heading(&drawn.sheet, 2, text_of("Method"));
        sheet_end(&drawn.sheet);
    }
    sheet_end_all(&drawn.sheet);
    const char *page = close_drawn(&drawn), *second;
    ck_assert_ptr_nonnull(second = strstr(page, "<article aria-labelledby=\"a2\">\n<h2 id=\"a2\">Soup</h2>\n<section>\n<h3 class=\"head\">Method</h3>\n</section>\n</article>\n</main>"));
    ck_assert_ptr_eq(strstr(page, "</html>"), strstr(second, "</html>"));
    buffer_close(&drawn.out);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("sheet");
    TCase *all = tcase_create("all");
    tcase_add_test(all, hostile_words_make_no_element_and_no_attribute);
    tcase_add_test(all, a_page_loads_nothing_and_names_its_style_by_hash);
    tcase_add_test(all, figures_on_a_page_are_those_of_the_json);
    tcase_add_test(all, a_bar_is_in_shares_of_the_whole);
    tcase_add_test(all, a_scale_begins_at_zero_and_holds_its_marks);
    tcase_add_test(all, what_nobody_knows_is_no_end_of_a_range);
    tcase_add_test(all, hostile_words_make_no_markup_in_markdown);
    tcase_add_test(all, a_table_in_markdown_keeps_its_columns);
    tcase_add_test(all, documents_in_one_page_are_articles_of_it);
    suite_add_tcase(suite, all);
    return suite_run(suite);
}
