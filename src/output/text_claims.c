/* Claims as people read them: those that a recipe makes, and those that it could make. */
#include <string.h>

#include "output/page.h"

struct claims_page {
    struct writer *writer;
    const struct kitchen *kitchen;
    bool all, some;                     /* all claims of the rules; one was printed */
};

/* The words of a finding's notes, each on a line of its own. */
static void print_notes(struct claims_page *page, const struct finding *finding)
{
    struct buffer words;
    buffer_open(&words, page->kitchen->allocator);
    for (const struct finding_note *note = finding ? finding->notes : NULL; note; note = note->next) {
        words.length = 0;
        words_print(&words, &note->words);
        writer_add(page->writer, text_of("           "));
        writer_visible(page->writer, (struct text){ words.bytes, (uint32_t)words.length });
        writer_add(page->writer, text_of("\n"));
    }
    writer_needs(page->writer, !words.failed);
    buffer_close(&words);
}

static void print_reasons(struct claims_page *page, const struct claim_told *told)
{
    struct arena arena;
    struct findings findings;
    arena_open(&arena, page->kitchen->allocator);
    findings_open(&findings, &arena);
    print_notes(page, claim_explain(told, &findings));
    writer_needs(page->writer, !findings.failed);
    arena_close(&arena);
}

static void print_must_stand(struct claims_page *page, const struct claim_told *told)
{
    for (uint32_t i = 0; i < told->grounds->count; i++) {
        if (told->grounds->at[i].why != GROUND_NOTE || told->grounds->outcome == OUTCOME_BROKEN)
            continue;
        writer_add(page->writer, text_of("           with it must stand: "));
        writer_visible(page->writer, told->grounds->at[i].words);
        writer_add(page->writer, text_of("\n"));
    }
}

static void print_told(void *context, const struct claim_told *told)
{
    struct claims_page *page = context;
    const struct library *owner = page->kitchen->rules_owner;
    bool stands = told->claim && told->claim->use != CLAIM_SAID;
    if (!told->claim || (stands && told->grounds->outcome == OUTCOME_KEPT))
        return;
    if (!page->some && !page->all) {
        writer_add(page->writer, text_of("\nClaims, by the rules "));
        writer_visible(page->writer, library_text(owner, page->kitchen->rules->name));
        writer_add(page->writer, text_of("\n"));
    }
    page->some = true;
    struct text name = told->said ? told->said->name : library_text(owner, told->claim->name);
    const char *outcome = !stands ? claim_outcome_name(told->grounds->outcome) : told->grounds->outcome == OUTCOME_BROKEN ? "is to say" : "may have";
    writer_print(page->writer, "  %-9s%s ", outcome, stands && told->grounds->outcome == OUTCOME_IN_DOUBT ? " to say" : "");
    writer_visible(page->writer, name);
    if (told->said && told->said->compared.length) {
        writer_add(page->writer, text_of(", compared to "));
        writer_visible(page->writer, told->said->compared);
    }
    writer_add(page->writer, text_of(" ("));
    struct text source = claim_source(owner, told->claim, told->grounds->count ? &told->grounds->at[0] : NULL);
    writer_visible(page->writer, source);
    writer_add(page->writer, text_of(")\n"));
    if (claim_is_from_memory(source) && told->grounds->outcome == OUTCOME_KEPT)
        writer_print(page->writer, "           from memory, check before relying on it\n");
    print_reasons(page, told);
    print_must_stand(page, told);
}

/* `salt (sodium times 2.5) per serving: 1.2 g`. */
static void print_converted(struct page *page)
{
    char amount[160];
    const struct rules *rules = page->kitchen->rules;
    const struct library *owner = page->kitchen->rules_owner;
    uint32_t nutrient = rules ? rules->converted_nutrient : NONE_INDEX;
    if (nutrient == NONE_INDEX)
        return;
    struct text name = library_text(owner, rules->converted), from = page_name(page, nutrient);
    struct range serving = range_scale(page_per_serving(page, page->sums->total.column[nutrient]), rules->converted_factor);
    struct bound bound = { .column = nutrient, .over = NONE_INDEX, .divisor = 1 };
    struct verdict verdict = { .bound = &bound, .value = serving, .complete = amounts_complete(&page->sums->total, nutrient) };
    struct text value = verdict_value(page->library, &verdict, -1, amount, sizeof amount);
    writer_print(page->writer, "\n%.*s (%.*s times %g)%s: %.*s\n", (int)name.length, name.bytes, (int)from.length, from.bytes,
                 rules->converted_factor, page->recipe->serves.high > 0 ? " per serving" : "", (int)value.length, value.bytes);
}

/* The reference amount of a category, and where it stands. */
static void print_reference(struct writer *writer, const struct kitchen *kitchen, const struct recipe *recipe)
{
    struct reference reference;
    if (!recipe_reference(kitchen, recipe, &reference) || !reference.category)
        return;
    struct text source = library_text(kitchen->rules_owner, reference.category->source);
    writer_add(writer, text_of("  reference amount of "));
    writer_visible(writer, library_text(kitchen->rules_owner, reference.category->name));
    writer_print(writer, ": %g %s (", reference.grams > 0 ? reference.grams : reference.ml, reference.grams > 0 ? "g" : "ml");
    writer_visible(writer, source);
    writer_print(writer, "%s)\n", claim_is_from_memory(source) ? ": check before relying on it" : "");
}

static void print_notice(struct writer *writer, const struct kitchen *kitchen)
{
    struct text notice = kitchen->rules ? library_text(kitchen->rules_owner, kitchen->rules->notice) : (struct text){ "", 0 };
    if (notice.length)
        writer_wrapped(writer, notice);
}

static void print_memory(struct page *page, const char *what, uint32_t nutrient, const char *where, struct text source)
{
    struct text name = page_name(page, nutrient);
    if (!claim_is_from_memory(source))
        return;
    writer_print(page->writer, "  %s of %.*s%s: from memory, check before relying on it (", what, (int)name.length, name.bytes, where);
    writer_visible(page->writer, source);
    writer_add(page->writer, text_of(")\n"));
}

/* Whether the figure of a nutrient comes from a label, too, and so from how the rules round it. */
static bool is_printed(const struct page *page, uint32_t nutrient)
{
    bool printed = false;
    for (uint32_t i = 0; i < page->sums->line_count && !printed; i++) {
        struct food_at label = line_label(&page->sums->lines[i]);
        printed = label.food && label.food->known >> nutrient & 1;
    }
    return printed;
}

/* Where labels print something else instead, that is what most of them print. */
static const struct rounding *rounding_of(const struct library *owner, const struct rules *rules, uint32_t nutrient)
{
    const struct rounding *converted = nutrient == rules->converted_nutrient ? rules_rounding(owner, rules, ROUNDING_CONVERTED, false) : NULL;
    return converted ? converted : rules_rounding(owner, rules, nutrient, false);
}

void page_print_memory(struct page *page)
{
    const struct library *owner = page->kitchen->rules_owner;
    const struct rules *rules = page->kitchen->rules;
    uint32_t shown[] = { page->library->traced, rules->compare_over, rules->compare_under };
    for (uint32_t i = 0; i < COUNT_OF(shown); i++) {
        bool again = (i > 0 && shown[i] == shown[0]) || (i > 1 && shown[i] == shown[1]);
        const struct daily_value *value = shown[i] == NONE_INDEX || again ? NULL : rules_daily_value(owner, rules, shown[i]);
        const struct rounding *rounding = shown[i] == NONE_INDEX || again ? NULL : rounding_of(owner, rules, shown[i]);
        if (value)
            print_memory(page, "daily value", shown[i], "", library_text(owner, value->source));
        if (rounding && is_printed(page, shown[i]))
            print_memory(page, "rounding", shown[i], " on labels", library_text(owner, rounding->source));
    }
}

void page_print_claims(struct page *page)
{
    struct sums other;
    struct claims_page claims = { page->writer, page->kitchen, false, false };
    print_converted(page);
    if (!recipe_has_claims(page->sums->at))
        return;
    sums_open(&other, page->kitchen->allocator);
    writer_needs(page->writer, recipe_claims(page->sums, &other, print_told, &claims) == STATUS_OK);
    sums_close(&other);
    if (claims.some)
        print_reference(page->writer, page->kitchen, page->recipe);
    if (claims.some)
        print_notice(page->writer, page->kitchen);
}

void text_could_claim(struct showing *showing, const struct sums *sums)
{
    struct claims_page claims = { showing->writer, showing->kitchen, true, false };
    if (!showing->kitchen->rules)
        return;
    writer_add(showing->writer, text_of("\n"));
    writer_visible(showing->writer, sums->at.recipe->name);
    writer_add(showing->writer, text_of(": what it could claim by the rules "));
    writer_visible(showing->writer, library_text(showing->kitchen->rules_owner, showing->kitchen->rules->name));
    writer_add(showing->writer, text_of("\n"));
    recipe_could_claim(sums, print_told, &claims);
    if (!claims.some)
        writer_add(showing->writer, text_of("  these rules declare no claim, and no mark that would stand on it\n"));
    print_reference(showing->writer, showing->kitchen, sums->at.recipe);
    print_notice(showing->writer, showing->kitchen);
}
