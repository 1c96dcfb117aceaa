/* JSON with cJSON, one recipe or finding at a time. The form is described in docs/schema; fields are only ever
 * added. Figures are not rounded. */
#include <math.h>
#include <string.h>
#include "output/json.h"

/* ---- small makers: a NULL anywhere means that memory failed; then nothing of the whole is printed -------------- */

cJSON *json_kept(struct showing *showing, cJSON *item)
{
    if (!item)
        showing->json_failed = true;
    return item;
}


/* JSON is UTF-8: bytes that are not (in a path) become replacement characters. */
static void add_valid(struct buffer *copy, struct text text)
{
    for (uint32_t at = 0; at < text.length;) {
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        buffer_add(copy, size ? text.bytes + at : "\xef\xbf\xbd", size ? size : 3);
        at += size ? size : 1;
    }
}

void json_text(struct showing *showing, cJSON *object, const char *key, struct text text)
{
    struct buffer copy;
    buffer_open(&copy, showing->kitchen->allocator);
    add_valid(&copy, text);
    json_kept(showing, cJSON_AddStringToObject(object, key, copy.bytes ? copy.bytes : ""));
    showing->json_failed = showing->json_failed || copy.failed;
    buffer_close(&copy);
}

void json_plain_number(struct showing *showing, cJSON *object, const char *key, double number)
{
    if (isfinite(number))
        json_kept(showing, cJSON_AddNumberToObject(object, key, number));
    else
        json_kept(showing, cJSON_AddNullToObject(object, key));
}

static void fill_range(struct showing *showing, cJSON *object, struct range range, bool complete)
{
    json_plain_number(showing, object, "low", range.low);
    json_plain_number(showing, object, "best", complete ? range.best : NAN);
    json_plain_number(showing, object, "high", complete ? range.high : NAN);
}

static void add_range(struct showing *showing, cJSON *object, const char *key, struct range range, bool complete)
{
    fill_range(showing, json_kept(showing, cJSON_AddObjectToObject(object, key)), range, complete);
}

static void add_range_or_null(struct showing *showing, cJSON *object, const char *key, struct range range)
{
    if (range.high > 0)
        add_range(showing, object, key, range, true);
    else
        json_kept(showing, cJSON_AddNullToObject(object, key));
}

void json_range(struct showing *showing, cJSON *object, const char *key, struct range range, bool complete)
{
    add_range(showing, object, key, range, complete);
}

void json_print(struct showing *showing, struct writer *writer, cJSON *json)
{
    char *printed = json && !showing->json_failed ? cJSON_PrintUnformatted(json) : NULL;
    if (printed)
        writer_json(writer, printed);
    else
        writer->buffer.failed = true;
    cJSON_free(printed);
    cJSON_Delete(json);
}

/* ---- amounts -------------------------------------------------------------------------------------------------------- */

static const struct library *library_of(const struct showing *showing)
{
    return showing->kitchen->library;
}

static void add_column_text(struct showing *showing, cJSON *object, const char *key, const struct library *owner, struct pack_text text)
{
    json_text(showing, object, key, library_text(owner, text));
}

static void add_origins(struct showing *showing, cJSON *object, const struct amounts *amounts)
{
    static const char *const names[] = { "inherent", "maker", "cook", "unseparated" };
    const struct library *library = library_of(showing);
    cJSON *origins = json_kept(showing, cJSON_AddObjectToObject(object, "origin"));
    for (uint32_t i = 0; i < ORIGIN_COUNT; i++) {
        uint32_t column = library->origin_column + i;
        add_range(showing, origins, names[i], amounts->column[column], amounts_complete(amounts, column));
    }
}

/* All nutrients of an amount, keyed by the library's names. */
static void add_amounts(struct showing *showing, cJSON *object, const char *key, const struct amounts *amounts)
{
    const struct library *library = library_of(showing), *owner;
    cJSON *all = json_kept(showing, cJSON_AddObjectToObject(object, key));
    for (uint32_t i = 0; i < library->nutrient_total; i++) {
        const struct nutrient *nutrient = library_nutrient_at(library, i, &owner);
        struct text name = library_text(owner, nutrient->key);
        char copy[64];
        snprintf(copy, sizeof copy, "%.*s", (int)name.length, name.bytes);
        cJSON *one = json_kept(showing, cJSON_AddObjectToObject(all, copy));
        bool complete = amounts_complete(amounts, i);
        add_column_text(showing, one, "unit", owner, nutrient->unit);
        fill_range(showing, one, amounts->column[i], complete);
        json_kept(showing, cJSON_AddBoolToObject(one, "complete", complete));
        if (i == library->traced)
            add_origins(showing, one, amounts);
    }
}

void json_amounts(struct showing *showing, cJSON *object, const char *key, const struct amounts *amounts)
{
    add_amounts(showing, object, key, amounts);
}

static void add_per_serving(struct showing *showing, cJSON *object, const struct sums *sums)
{
    struct amounts serving;
    if (figures_per_serving(sums, library_of(showing), &serving))
        add_amounts(showing, object, "per_serving", &serving);
    else
        json_kept(showing, cJSON_AddNullToObject(object, "per_serving"));
}

static void add_per_mass(struct showing *showing, cJSON *object, const struct sums *sums)
{
    bool estimated;
    struct amounts hundred;
    bool known = figures_per_mass(sums, library_of(showing), &hundred, &estimated);
    json_kept(showing, cJSON_AddBoolToObject(object, "mass_is_estimated", estimated));
    if (known)
        add_amounts(showing, object, "per_100_g", &hundred);
    else
        json_kept(showing, cJSON_AddNullToObject(object, "per_100_g"));
}

static void add_serving_mass(struct showing *showing, cJSON *object, const struct sums *sums)
{
    bool estimated;
    struct range grams;
    if (!figures_serving_grams(sums, library_of(showing), &grams, &estimated)) {
        json_kept(showing, cJSON_AddNullToObject(object, "serving_mass"));
        return;
    }
    cJSON *mass = json_kept(showing, cJSON_AddObjectToObject(object, "serving_mass"));
    json_kept(showing, cJSON_AddStringToObject(mass, "unit", "g"));
    fill_range(showing, mass, grams, true);
}

/* ---- lines ------------------------------------------------------------------------------------------------------------ */

static void add_subject(struct showing *showing, cJSON *object, const struct line_amount *amount)
{
    const struct resolved *resolved = amount->resolved;
    if (resolved && resolved->subject == SUBJECT_FOOD && resolved->food.food) {
        add_column_text(showing, object, "food", resolved->food.library, resolved->food.food->name);
        add_column_text(showing, object, "source", resolved->food.library, resolved->food.food->source);
    } else if (resolved && resolved->subject == SUBJECT_RECIPE) {
        json_text(showing, object, "food", resolved->recipe.recipe->name);
        json_kept(showing, cJSON_AddStringToObject(object, "source", "recipe"));
    } else {
        json_kept(showing, cJSON_AddNullToObject(object, "food"));
        json_kept(showing, cJSON_AddNullToObject(object, "source"));
    }
}

static void add_treatments(struct showing *showing, cJSON *object, const struct line_amount *amount)
{
    const struct resolved *resolved = amount->resolved;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "treatments"));
    for (uint32_t i = 0; resolved && i < resolved->treatment_count; i++) {
        char name[128];
        snprintf(name, sizeof name, "%.*s", (int)resolved->treatments[i].length, resolved->treatments[i].bytes);
        cJSON_AddItemToArray(list, json_kept(showing, cJSON_CreateString(name)));
    }
    if (resolved && resolved->evidence)
        json_kept(showing, cJSON_AddStringToObject(object, "evidence", evidence_word(resolved->evidence).bytes));
    if (resolved && resolved->treatment_count)
        json_kept(showing, cJSON_AddStringToObject(object, "basis", resolved->flags & RESOLVED_WEIGHED_AFTER ? "weighed after" : "weighed before"));
}

static void traced_key(const struct library *library, char *key, size_t size)
{
    const struct library *owner;
    const struct nutrient *traced = library_nutrient_at(library, library->traced, &owner);
    struct text name = library_text(owner, traced->key);
    snprintf(key, size, "%.*s", (int)name.length, name.bytes);
}

/* What stays in the dish of the traced nutrient, and what the line held as it was measured. */
static void add_traced(struct showing *showing, cJSON *object, const struct line_amount *amount)
{
    const struct library *library = library_of(showing);
    char key[64], before[80];
    uint32_t column = library->traced;
    bool known = !(amount->incomplete >> column & 1);
    traced_key(library, key, sizeof key);
    snprintf(before, sizeof before, "%s_before", key);
    add_range(showing, object, key, line_column(amount, library, column), known);
    if (line_known_before(amount, column))
        add_range(showing, object, before, range_multiply(amount->as_written, amount->values[column]), true);
    else
        json_kept(showing, cJSON_AddNullToObject(object, before));
}

static void add_line(struct showing *showing, cJSON *list, const struct sums *sums, const struct line_amount *amount)
{
    const struct library *library = library_of(showing);
    struct place place = recipe_line_place(sums, amount->line);
    struct position position = sources_position(&showing->sources, place);
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    bool loaded = showing->sources.text.bytes != NULL;
    json_text(showing, object, "text", loaded ? span_text(showing->sources.text, place.span) : text_of(""));
    json_text(showing, object, "file", text_of(sources_path(&showing->sources, place.file)));
    json_kept(showing, cJSON_AddNumberToObject(object, "line", position.line));
    add_subject(showing, object, amount);
    add_range_or_null(showing, object, "grams", line_grams(amount, library));
    if (amount->mass_known)
        add_range(showing, object, "grams_after", line_column(amount, library, library->mass_column), true);
    else
        json_kept(showing, cJSON_AddNullToObject(object, "grams_after"));
    if (library->traced != NONE_INDEX)
        add_traced(showing, object, amount);
    add_treatments(showing, object, amount);
    json_line_of_day(showing, object, sums, amount);
    cJSON_AddItemToArray(list, object);
}

/* What went into each bath, what is left in it, and what of that is eaten or thrown away. */
static void add_baths(struct showing *showing, cJSON *object, const struct sums *sums)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "baths"));
    for (uint32_t i = 0; i < sums->bath_count; i++) {
        const struct bath_sum *bath = &sums->baths[i];
        const struct part *part = &sums->at.gathering->parts[bath->part];
        struct amounts discarded = bath_discarded(bath, library_of(showing));
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "name", part->name);
        json_text(showing, one, "file", text_of(sources_path(&showing->sources, part->place.file)));
        json_kept(showing, cJSON_AddNumberToObject(one, "line", sources_position(&showing->sources, part->place).line));
        add_amounts(showing, one, "went_in", &bath->went_in);
        add_amounts(showing, one, "left", &bath->left);
        add_amounts(showing, one, "kept", &bath->kept);
        add_amounts(showing, one, "discarded", &discarded);
        cJSON_AddItemToArray(list, one);
    }
}

/* ---- limits ------------------------------------------------------------------------------------------------------------- */

struct text json_column_key(const struct library *library, uint32_t column)
{
    const struct library *owner;
    uint32_t nutrient = column < library->nutrient_total ? column : library->traced;
    const struct nutrient *found = library_nutrient_at(library, nutrient, &owner);
    return library_text(owner, found->key);
}

static void add_figure(struct showing *showing, cJSON *object, const char *key, const struct bound *bound, const struct library *library, double value)
{
    const struct library *owner;
    cJSON *figure = json_kept(showing, cJSON_AddObjectToObject(object, key));
    uint32_t nutrient = bound->column < library->nutrient_total ? bound->column : library->traced;
    const struct nutrient *found = library_nutrient_at(library, nutrient, &owner);
    json_text(showing, figure, "unit", bound->over != NONE_INDEX ? text_of("1") : library_text(owner, found->unit));
    json_kept(showing, cJSON_AddNumberToObject(figure, "value", value));
}

static void add_basis(struct showing *showing, cJSON *object, const struct bound *bound)
{
    char words[48];
    switch (bound->basis) {
    case PER_MASS: snprintf(words, sizeof words, "%g g", bound->per); break;
    case PER_ENERGY: snprintf(words, sizeof words, "%g kcal", bound->per); break;
    case PER_RECIPE: snprintf(words, sizeof words, "recipe"); break;
    case PER_DAY: snprintf(words, sizeof words, "day"); break;
    case PER_MEAL: snprintf(words, sizeof words, "meal"); break;
    case PER_VOLUME: snprintf(words, sizeof words, "%g ml", bound->per); break;
    case PER_REFERENCE: snprintf(words, sizeof words, "reference amount"); break;
    default: snprintf(words, sizeof words, "serving");
    }
    json_kept(showing, cJSON_AddStringToObject(object, "per", words));
}

cJSON *json_limit(struct showing *showing, cJSON *list, const struct verdict *verdict)
{
    const struct library *library = library_of(showing);
    const struct bound *bound = verdict->bound;
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_kept(showing, cJSON_AddStringToObject(object, "kind", bound->is_goal ? "goal" : "limit"));
    json_text(showing, object, "nutrient", json_column_key(library, bound->column));
    if (bound->origin < ORIGIN_COUNT)
        json_kept(showing, cJSON_AddStringToObject(object, "origin", origin_name((enum origin)bound->origin)));
    if (bound->over != NONE_INDEX)
        json_text(showing, object, "over", json_column_key(library, bound->over));
    if (bound->has_most)
        add_figure(showing, object, "at_most", bound, library, bound->most);
    if (bound->has_least)
        add_figure(showing, object, "at_least", bound, library, bound->least);
    if (bound->slack > 0)
        json_plain_number(showing, object, "slack", bound->slack);
    if (bound->by_clinician)
        json_kept(showing, cJSON_AddTrueToObject(object, "set_by_clinician"));
    if (verdict->meal)
        json_text(showing, object, "meal", verdict->meal->name);
    json_kept(showing, cJSON_AddBoolToObject(object, "strict", bound->strict));
    add_range(showing, object, "value", verdict->value, verdict->complete);
    add_basis(showing, object, bound);
    json_kept(showing, cJSON_AddStringToObject(object, "outcome", outcome_name(verdict->outcome)));
    struct position position = sources_position(&showing->sources, bound->place);
    json_text(showing, object, "file", text_of(sources_path(&showing->sources, bound->place.file)));
    json_kept(showing, cJSON_AddNumberToObject(object, "line", position.line));
    if (verdict->policy)
        json_text(showing, object, "policy", verdict->policy->name);
    if (verdict->published)
        json_text(showing, object, "published", library_text(verdict->published->owner, verdict->published->intake->title));
    cJSON_AddItemToArray(list, object);
    return object;
}

/* ---- a recipe -------------------------------------------------------------------------------------------------------------- */

void json_head(struct showing *showing, cJSON *object, struct text name, struct place place)
{
    struct position position = sources_position(&showing->sources, place);
    json_text(showing, object, "name", name);
    json_text(showing, object, "file", text_of(sources_path(&showing->sources, place.file)));
    json_kept(showing, cJSON_AddNumberToObject(object, "line", position.line));
}

void json_lists(struct showing *showing, cJSON *object, const struct report *report)
{
    const struct sums *sums = report->sums;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "lines"));
    for (uint32_t i = 0; i < sums->line_count; i++)
        add_line(showing, list, sums, &sums->lines[i]);
    add_baths(showing, object, sums);
    list = json_kept(showing, cJSON_AddArrayToObject(object, "limits"));
    for (uint32_t i = 0; i < report->verdicts->count; i++)
        json_limit(showing, list, &report->verdicts->at[i]);
    list = json_kept(showing, cJSON_AddArrayToObject(object, "findings"));
    for (uint32_t i = 0; i < report->findings_count; i++)
        cJSON_AddItemToArray(list, json_make_finding(showing, report->findings[i]));
    json_packets(showing, object, sums);
    json_cautions(showing, object, report);
}

void json_recipe(struct showing *showing, const struct report *report)
{
    const struct sums *sums = report->sums;
    const struct recipe *recipe = sums->at.recipe;
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_head(showing, object, recipe->name, (struct place){ recipe->file, recipe->title });
    json_eater(showing, object, recipe->eater);
    add_range_or_null(showing, object, "servings", recipe->serves);
    json_kept(showing, cJSON_AddBoolToObject(object, "variation", showing->kitchen->variation));
    json_kept(showing, cJSON_AddNumberToObject(object, "spoon_error", showing->kitchen->spoon_error));
    add_serving_mass(showing, object, sums);
    add_per_serving(showing, object, sums);
    add_per_mass(showing, object, sums);
    add_amounts(showing, object, "per_recipe", &sums->total);
    json_lists(showing, object, report);
    json_add_claims(showing, object, sums);
    json_print(showing, showing->writer, object);
}
