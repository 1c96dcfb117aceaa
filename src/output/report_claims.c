/* Claims as people read them: those that a recipe makes, and those that it could make. */
#include "output/page.h"

struct claims_page {
    struct page *page;
    bool all, some;                     /* all claims of the rules; one was told */
};

/* The words of a finding's notes, each by itself. */
static void tell_notes(struct page *page, bool *begun, const struct finding *finding)
{
    for (const struct finding_note *note = finding ? finding->notes : NULL; note; note = note->next) {
        struct buffer words;
        buffer_open(&words, page->kitchen->allocator);
        words_print(&words, &note->words);
        page_item(page, begun, sheet_source(page->sheet, sheet_keep(page->sheet, &words), false));
        buffer_close(&words);
    }
}

/* A claim of a nutrient that comes from what a caution is about: it goes with the claim. */
struct warning {
    struct page *page;
    const struct claim *claim;
    bool *begun;
};

static void warn(void *context, const struct caution_told *told)
{
    const struct warning *warning = context;
    const struct library *owner = warning->page->kitchen->rules_owner;
    bool about = false;
    for (uint32_t i = 0; i < warning->claim->condition_count && told->first; i++)
        about = about || owner->conditions[warning->claim->first_condition + i].column == told->nutrient;
    if (about)
        page_item(warning->page, warning->begun, sheet_say(warning->page->sheet, PHRASE_CAUTION_BECAUSE, told->words, told->because));
}

static void tell_cautions(struct page *page, bool *begun, const struct claim_told *told)
{
    struct cautious cautious = { .kitchen = page->kitchen, .sums = told->sums };
    if (told->grounds->outcome != OUTCOME_BROKEN)
        cautions_called_for(&cautious, warn, &(struct warning){ page, told->claim, begun });
}

static void tell_must_stand(struct page *page, bool *begun, const struct claim_told *told)
{
    for (uint32_t i = 0; i < told->grounds->count; i++) {
        if (told->grounds->at[i].why == GROUND_NOTE && told->grounds->outcome != OUTCOME_BROKEN)
            page_item(page, begun, sheet_say(page->sheet, PHRASE_CLAIM_WITH, told->grounds->at[i].words));
    }
}

static void tell_reasons(struct page *page, const struct claim_told *told, bool from_memory)
{
    struct arena arena;
    struct findings findings;
    bool begun = false;
    arena_open(&arena, page->kitchen->allocator);
    findings_open(&findings, &arena);
    if (from_memory)
        page_item(page, &begun, phrase_text(PHRASE_CLAIM_FROM_MEMORY));
    tell_notes(page, &begun, claim_explain(told, &findings));
    tell_cautions(page, &begun, told);
    tell_must_stand(page, &begun, told);
    page_end_list(page, begun);
    writer_needs(page->sheet->writer, !findings.failed);
    arena_close(&arena);
}

/* `low sodium (21 CFR 101.61(b)(4), read)`. */
static struct text claim_words(struct page *page, const struct claim_told *told, struct text source)
{
    source = sheet_source(page->sheet, source, claim_is_from_memory(source) && told->grounds->outcome == OUTCOME_KEPT);
    struct text name = told->said ? told->said->name : library_text(page->kitchen->rules_owner, told->claim->name);
    if (told->said && told->said->compared.length)
        return sheet_say(page->sheet, PHRASE_CLAIM_COMPARED, name, told->said->compared, source);
    return sheet_say(page->sheet, PHRASE_CLAIM, name, source);
}

static void tell_claim(void *context, const struct claim_told *told)
{
    struct claims_page *claims = context;
    struct page *page = claims->page;
    const struct library *owner = page->kitchen->rules_owner;
    bool stands = told->claim && told->claim->use != CLAIM_SAID;
    enum outcome outcome = told->grounds->outcome;
    if (!told->claim || (stands && outcome == OUTCOME_KEPT))
        return;
    if (!claims->some && !claims->all)
        page_section(page, sheet_say(page->sheet, PHRASE_CLAIMS, library_text(owner, page->kitchen->rules->name)));
    claims->some = true;
    struct text source = claim_source(owner, told->claim, told->grounds->count ? &told->grounds->at[0] : NULL);
    struct text words = claim_words(page, told, source);
    enum report_phrase phrase = !stands ? PHRASE_CLAIM_IS : outcome == OUTCOME_BROKEN ? PHRASE_CLAIM_IS_TO_SAY : PHRASE_CLAIM_MAY_HAVE;
    sheet_paragraph(page->sheet, MANNER_PLAIN, sheet_say(page->sheet, phrase, words, text_of(claim_outcome_name(outcome))));
    tell_reasons(page, told, claim_is_from_memory(source) && outcome == OUTCOME_KEPT);
}

/* How the rules, or those that they name for labels, round what they print instead of a nutrient; NULL where neither says it. */
static const struct rounding *converted_rounding(const struct page *page, const struct library **owner)
{
    const struct rules *rules = page->kitchen->rules;
    *owner = page->kitchen->rules_owner;
    const struct rounding *rounding = rules_rounding(*owner, rules, ROUNDING_CONVERTED, false);
    if (rounding)
        return rounding;
    rules = rules_of_labels(page->library, rules, owner);
    return rules_rounding(*owner, rules, ROUNDING_CONVERTED, false);
}

/* Grams of what is printed instead, as the rules round them, ends outward; without a rule three figures. */
static double converted_grams(const struct page *page, uint32_t nutrient, double amount, enum direction direction)
{
    const struct library *owner, *nutrient_owner;
    const struct rounding *rounding = converted_rounding(page, &owner);
    double grams = library_nutrient_at(page->library, nutrient, &nutrient_owner)->unit_factor;
    double step = rounding ? rounding_step(owner, rounding, amount) : 0;
    if (rounding && direction != ROUND_UP && rounding_is_zero(rounding, amount))
        return 0;
    if (step <= 0)
        step = amount > 0 ? power_of_ten(amount_decade(amount) - 2) : 1;
    return amount_round(amount, step, direction) * grams;
}

/* `1.2 g (1.1 to 1.3)`; `less than 0.01 g` of what a label may call none, and is not. */
static struct text converted_amount(struct page *page, uint32_t nutrient, struct range amount, bool complete)
{
    const struct library *owner, *nutrient_owner;
    struct sheet *sheet = page->sheet;
    const struct rounding *rounding = converted_rounding(page, &owner);
    struct text unit = phrase_text(PHRASE_UNIT_GRAMS);
    double low = converted_grams(page, nutrient, amount.low, ROUND_DOWN), best = converted_grams(page, nutrient, amount.best, ROUND_NEAREST);
    double high = converted_grams(page, nutrient, amount.high, ROUND_UP);
    if (!complete)
        return sheet_say(sheet, PHRASE_AMOUNT_LEAST, sheet_print(sheet, "%.6g", low), unit);
    if (rounding && amount.high > 0 && rounding_is_zero(rounding, amount.high) && rounding->less_than > 0)
        return sheet_say(sheet, PHRASE_PANEL_LESS,
                         sheet_print(sheet, "%g", rounding->less_than * library_nutrient_at(page->library, nutrient, &nutrient_owner)->unit_factor), unit);
    if (range_is_exact(amount) || low == high)
        return sheet_say(sheet, PHRASE_AMOUNT, sheet_print(sheet, "%.6g", best), unit);
    return sheet_say(sheet, PHRASE_AMOUNT_RANGE, sheet_print(sheet, "%.6g", best), unit, sheet_print(sheet, "%.6g", low), sheet_print(sheet, "%.6g", high));
}

/* `salt (sodium times 2.5) per serving: 1.2 g`. */
static void tell_converted(struct page *page)
{
    struct sheet *sheet = page->sheet;
    const struct rules *rules = page->kitchen->rules;
    uint32_t nutrient = rules ? rules->converted_nutrient : NONE_INDEX;
    if (nutrient == NONE_INDEX)
        return;
    struct range serving = range_scale(page_per_serving(page, page->sums->total.column[nutrient]), rules->converted_factor);
    struct text name = library_text(page->kitchen->rules_owner, rules->converted);
    struct text value = converted_amount(page, nutrient, serving, amounts_complete(&page->sums->total, nutrient));
    page_section(page, name);
    sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, PHRASE_CONVERTED, name, page_name(page, nutrient), sheet_print(sheet, "%g", rules->converted_factor),
                    text_of(page_per(page)), value));
}

/* The reference amount of a category, and where it stands. */
static void tell_reference(struct page *page)
{
    struct reference reference;
    struct sheet *sheet = page->sheet;
    const struct kitchen *kitchen = page->kitchen;
    if (!recipe_reference(kitchen, page->recipe, &reference) || !reference.category)
        return;
    bool by_mass = reference.grams > 0;
    struct text source = library_text(kitchen->rules_owner, reference.category->source);
    sheet_paragraph(sheet, MANNER_PLAIN, sheet_say(sheet, claim_is_from_memory(source) ? PHRASE_CLAIM_REFERENCE_CHECK : PHRASE_CLAIM_REFERENCE,
                    library_text(kitchen->rules_owner, reference.category->name), sheet_print(sheet, "%g", by_mass ? reference.grams : reference.ml),
                    phrase_text(by_mass ? PHRASE_UNIT_GRAMS : PHRASE_UNIT_ML), sheet_source(sheet, source, true)));
}

static void tell_notice(struct page *page)
{
    const struct kitchen *kitchen = page->kitchen;
    struct text notice = kitchen->rules ? library_text(kitchen->rules_owner, kitchen->rules->notice) : text_of("");
    if (notice.length)
        sheet_paragraph(page->sheet, MANNER_CAUTION, notice);
}

/* ---- figures of the rules that nobody read ------------------------------------------------------------------------------- */

static void tell_memory(struct page *page, bool *begun, enum report_phrase phrase, uint32_t nutrient, struct text source)
{
    if (claim_is_from_memory(source))
        page_item(page, begun, sheet_say(page->sheet, phrase, page_name(page, nutrient), sheet_source(page->sheet, source, true), kitchen_daily_name(page->kitchen)));
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

void page_print_memory(struct page *page, bool *begun)
{
    const struct library *owner = page->kitchen->rules_owner;
    const struct rules *rules = page->kitchen->rules;
    uint32_t shown[] = { page->library->traced, rules->compare_over, rules->compare_under };
    for (uint32_t i = 0; i < COUNT_OF(shown); i++) {
        bool again = (i > 0 && shown[i] == shown[0]) || (i > 1 && shown[i] == shown[1]);
        const struct daily_value *value = shown[i] == NONE_INDEX || again ? NULL : recipe_daily_value(page->kitchen, page->recipe, page->verdicts, shown[i]);
        const struct rounding *rounding = shown[i] == NONE_INDEX || again ? NULL : rounding_of(owner, rules, shown[i]);
        if (value)
            tell_memory(page, begun, PHRASE_MEMORY_DAILY_VALUE, shown[i], library_text(owner, value->source));
        if (rounding && is_printed(page, shown[i]))
            tell_memory(page, begun, PHRASE_MEMORY_ROUNDING, shown[i], library_text(owner, rounding->source));
    }
}

void page_print_claims(struct page *page)
{
    struct sums other;
    struct claims_page claims = { page, false, false };
    tell_converted(page);
    if (!recipe_has_claims(page->sums->at))
        return;
    sums_open(&other, page->kitchen->allocator);
    writer_needs(page->sheet->writer, recipe_claims(page->sums, &other, tell_claim, &claims) == STATUS_OK);
    sums_close(&other);
    if (claims.some)
        tell_reference(page);
    if (claims.some)
        tell_notice(page);
}

void text_could_claim(struct showing *showing, struct sums *sums)
{
    struct sheet sheet;
    const struct report report = { .sums = sums };
    const struct rules *rules = showing->kitchen->rules;
    if (!rules)
        return;
    sheet_open(&sheet, LOOK_TEXT, showing->writer, showing->kitchen->allocator);
    struct page page = page_of(showing, &sheet, &report);
    struct claims_page claims = { &page, true, false };
    page_section(&page, sheet_say(&sheet, PHRASE_CLAIM_COULD, sums->at.recipe->name, library_text(showing->kitchen->rules_owner, rules->name)));
    writer_needs(showing->writer, recipe_could_claim(sums, tell_claim, &claims) == STATUS_OK);
    if (!claims.some)
        sheet_paragraph(&sheet, MANNER_PLAIN, phrase_text(PHRASE_CLAIM_NONE));
    tell_reference(&page);
    tell_notice(&page);
    sheet_close(&sheet);
}
