/* A kitchen: its files, what it declares itself, and the names of its recipes and policies. */
#include <stdlib.h>
#include <string.h>

#include "model/model.h"


void kitchen_open(struct kitchen *kitchen, struct allocator allocator, const struct library *stdlib,
                  uint32_t gatherings)
{
    *kitchen = (struct kitchen){ .allocator = allocator, .stdlib = stdlib, .below = stdlib, .library = stdlib };
    arena_open(&kitchen->arena, allocator);
    table_open(&kitchen->names, allocator);
    table_open(&kitchen->policies, allocator);
    kitchen->gatherings = allocator.resize(allocator.context, NULL, gatherings * sizeof *kitchen->gatherings);
    if (!kitchen->gatherings) {
        kitchen->failed = true;
        return;
    }
    kitchen->gatherings_count = gatherings;
    for (uint32_t i = 0; i < gatherings; i++)
        gathering_open(&kitchen->gatherings[i], kitchen);
}

void kitchen_close(struct kitchen *kitchen)
{
    struct allocator *allocator = &kitchen->allocator;
    void *const blocks[] = { kitchen->local_pack, kitchen->files, kitchen->recipes, kitchen->weeks, kitchen->follows, kitchen->uses };
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        gathering_close(&kitchen->gatherings[i]);
    allocator->resize(allocator->context, kitchen->gatherings, 0);
    for (uint32_t i = 0; i < COUNT_OF(blocks); i++) {
        if (blocks[i])
            allocator->resize(allocator->context, blocks[i], 0);
    }
    table_close(&kitchen->names);
    table_close(&kitchen->policies);
    file_unmap(&kitchen->used_pack);
    arena_close(&kitchen->arena);
}

/* ---- names ----------------------------------------------------------------------------------------------------- */

static uint64_t name_hash(struct text name, char *key, struct text *found)
{
    *found = (struct text){ key, name_key_of(name, true, key) };
    return hash_bytes(found->bytes, found->length);
}

static bool same_name(struct text a, struct text b)
{
    char first[KEY_BYTES], second[KEY_BYTES];
    struct text x = { first, name_key_of(a, true, first) }, y = { second, name_key_of(b, true, second) };
    return text_equal(x, y);
}

static struct recipe_at find_recipe(const struct kitchen *kitchen, struct text key, uint64_t hash)
{
    char storage[KEY_BYTES];
    uint32_t position;
    for (uint32_t at = table_find(&kitchen->names, hash, &position); at != TABLE_NONE;
         at = table_next(&kitchen->names, hash, &position)) {
        struct text other = { storage, name_key_of(kitchen->recipes[at].recipe->name, true, storage) };
        if (text_equal(other, key))
            return kitchen->recipes[at];
    }
    return (struct recipe_at){ NULL, NULL };
}

struct text kitchen_tolerance_source(const struct kitchen *kitchen, uint32_t nutrient)
{
    const struct library *owner = kitchen->rules_owner;
    const struct rules *rules = rules_of_tolerance(kitchen->library, kitchen->rules, &owner);
    const struct tolerance *tolerance = rules_tolerance(owner, rules, nutrient);
    return tolerance ? library_text(owner, tolerance->source) : (struct text){ "", 0 };
}

struct recipe_at kitchen_recipe(const struct kitchen *kitchen, struct text name)
{
    char key[KEY_BYTES];
    struct text found;
    uint64_t hash = name_hash(name, key, &found);
    return find_recipe(kitchen, found, hash);
}

const struct policy *kitchen_policy(const struct kitchen *kitchen, struct text name, struct gathering **owner)
{
    char key[KEY_BYTES];
    struct text found;
    uint32_t position;
    uint64_t hash = name_hash(name, key, &found);
    for (uint32_t at = table_find(&kitchen->policies, hash, &position); at != TABLE_NONE;
         at = table_next(&kitchen->policies, hash, &position)) {
        *owner = &kitchen->gatherings[at >> 24];
        const struct policy *policy = &(*owner)->policies[at & 0xffffff];
        if (same_name(policy->name, name))
            return policy;
    }
    return NULL;
}

static void report_duplicate(struct kitchen *kitchen, struct text name, struct place place, struct place earlier)
{
    struct findings *findings = &kitchen->gatherings[0].findings;
    struct finding *finding = finding_add(findings, FINDING_DUPLICATE_NAME, place, GAPS(name));
    finding_label(findings, finding, earlier, WORDS_FIRST_DECLARED_HERE, NO_GAPS);
}

static struct place recipe_place(struct recipe_at at)
{
    return (struct place){ at.recipe->file, at.recipe->title };
}

/* Recipes and labels share one name space. */
static void name_recipe(struct kitchen *kitchen, uint32_t number)
{
    char key[KEY_BYTES];
    struct text found;
    struct recipe_at at = kitchen->recipes[number], earlier;
    uint64_t hash = name_hash(at.recipe->name, key, &found);
    if (found.length == 0) {
        if (at.recipe->name.length)
            finding_add(&kitchen->gatherings[0].findings, FINDING_NAME_TOO_LONG, recipe_place(at), GAPS(at.recipe->name));
        return;
    }
    earlier = find_recipe(kitchen, found, hash);
    struct food_at label = library_label(kitchen->library, found);
    if (earlier.recipe)
        report_duplicate(kitchen, at.recipe->name, recipe_place(at), recipe_place(earlier));
    else if (label.food)
        report_duplicate(kitchen, at.recipe->name, recipe_place(at), label.food->place);
    if (!earlier.recipe && !table_add(&kitchen->names, hash, number))
        kitchen->failed = true;
}

/* Weeks share the name space of recipes, days and labels; nobody looks them up, so that they are only compared. */
static void check_week_name(struct kitchen *kitchen, struct table *weeks, uint32_t number)
{
    char key[KEY_BYTES];
    struct text found;
    const struct week *week = kitchen->weeks[number].week;
    struct place place = { week->file, week->title };
    uint64_t hash = name_hash(week->name, key, &found);
    if (found.length == 0) {
        if (week->name.length)
            finding_add(&kitchen->gatherings[0].findings, FINDING_NAME_TOO_LONG, place, GAPS(week->name));
        return;
    }
    struct recipe_at recipe = find_recipe(kitchen, found, hash);
    struct food_at label = library_label(kitchen->library, found);
    uint32_t position, earlier = table_find(weeks, hash, &position);
    while (earlier != TABLE_NONE && !same_name(kitchen->weeks[earlier].week->name, week->name))
        earlier = table_next(weeks, hash, &position);
    if (earlier == TABLE_NONE && !table_add(weeks, hash, number))
        kitchen->failed = true;
    if (recipe.recipe)
        report_duplicate(kitchen, week->name, place, recipe_place(recipe));
    else if (label.food)
        report_duplicate(kitchen, week->name, place, label.food->place);
    else if (earlier != TABLE_NONE)
        report_duplicate(kitchen, week->name, place, (struct place){ kitchen->weeks[earlier].week->file, kitchen->weeks[earlier].week->title });
}

static void check_week_names(struct kitchen *kitchen)
{
    struct table weeks;
    table_open(&weeks, kitchen->allocator);
    for (uint32_t i = 0; i < kitchen->weeks_count; i++)
        check_week_name(kitchen, &weeks, i);
    table_close(&weeks);
}

static void name_policies(struct kitchen *kitchen, uint32_t number)
{
    struct gathering *gathering = &kitchen->gatherings[number], *owner;
    for (uint32_t i = 0; i < gathering->policies_count; i++) {
        char key[KEY_BYTES];
        struct text found;
        struct policy *policy = &gathering->policies[i];
        uint64_t hash = name_hash(policy->name, key, &found);
        const struct policy *earlier = kitchen_policy(kitchen, policy->name, &owner);
        if (earlier)
            report_duplicate(kitchen, policy->name, policy->place, earlier->place);
        else if (!table_add(&kitchen->policies, hash, number << 24 | i))
            kitchen->failed = true;
    }
}

/* ---- recipes in order of file and place ---------------------------------------------------------------------------- */

/* Each gathering holds whole files, in order: the next recipe is the first of those in front. */
static uint32_t next_gathering(const struct kitchen *kitchen, const uint32_t *cursors)
{
    uint32_t best = NONE_INDEX;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
        const struct gathering *gathering = &kitchen->gatherings[i];
        if (cursors[i] == gathering->recipes_count)
            continue;
        if (best == NONE_INDEX
            || gathering->recipes[cursors[i]].file < kitchen->gatherings[best].recipes[cursors[best]].file)
            best = i;
    }
    return best;
}

static bool list_recipes(struct kitchen *kitchen)
{
    uint32_t cursors[LIMIT_JOBS] = { 0 }, total = 0, next;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        total += kitchen->gatherings[i].recipes_count;
    if (total == 0)
        return true;
    kitchen->recipes = kitchen->allocator.resize(kitchen->allocator.context, NULL, total * sizeof *kitchen->recipes);
    if (!kitchen->recipes)
        return false;
    while ((next = next_gathering(kitchen, cursors)) != NONE_INDEX) {
        struct gathering *gathering = &kitchen->gatherings[next];
        kitchen->recipes[kitchen->recipes_count++] =
            (struct recipe_at){ gathering, &gathering->recipes[cursors[next]++] };
    }
    return true;
}

static int compare_weeks(const void *left, const void *right)
{
    const struct week *a = ((const struct week_at *)left)->week, *b = ((const struct week_at *)right)->week;
    if (a->file != b->file)
        return a->file < b->file ? -1 : 1;
    return a->title.start < b->title.start ? -1 : 1;
}

static bool list_weeks(struct kitchen *kitchen)
{
    uint32_t total = 0;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        total += kitchen->gatherings[i].weeks_count;
    if (total == 0)
        return true;
    kitchen->weeks = kitchen->allocator.resize(kitchen->allocator.context, NULL, total * sizeof *kitchen->weeks);
    if (!kitchen->weeks)
        return false;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
        struct gathering *gathering = &kitchen->gatherings[i];
        for (uint32_t j = 0; j < gathering->weeks_count; j++)
            kitchen->weeks[kitchen->weeks_count++] = (struct week_at){ gathering, &gathering->weeks[j] };
    }
    qsort(kitchen->weeks, total, sizeof *kitchen->weeks, compare_weeks);
    return true;
}

/* ---- linking -------------------------------------------------------------------------------------------------------- */

static const struct rules *rules_named(struct kitchen *kitchen)
{
    char key[KEY_BYTES];
    struct text name = kitchen->rules_said ? kitchen->rules_name : text_of(USUAL_RULES);
    return library_rules(kitchen->library, (struct text){ key, name_key_of(name, false, key) }, &kitchen->rules_owner);
}

/* Cautions must not vanish: rules without any of their own come with those of the usual ones. */
static void choose_cautions(struct kitchen *kitchen)
{
    char key[KEY_BYTES];
    kitchen->cautions = kitchen->rules;
    kitchen->cautions_owner = kitchen->rules_owner;
    if (!kitchen->rules || kitchen->rules->caution_count == 0)
        kitchen->cautions = library_rules(kitchen->library, (struct text){ key, name_key_of(text_of(USUAL_RULES), false, key) },
                                          &kitchen->cautions_owner);
}

/* All rule packs that there are, the kitchen's own first. */
static void note_rules(const struct library *library, struct findings *findings, struct finding *finding)
{
    char list[400];
    size_t used = 0;
    for (; library; library = library->base) {
        for (uint32_t i = 0; i < library->rules_count && used + 40 < sizeof list; i++) {
            struct text name = library_text(library, library->rules[i].name);
            int shown = name.length < 32 ? (int)name.length : 32;
            used += (size_t)snprintf(list + used, sizeof list - used, "%s%.*s", used ? ", " : "", shown, name.bytes);
        }
    }
    finding_note(findings, finding, WORDS_RULES_ALL, GAPS((struct text){ list, (uint32_t)used }));
}

/* Where no rule pack has the name, the usual one stands in: cautions must not vanish. */
static enum status report_rules(struct kitchen *kitchen)
{
    if (kitchen->rules || !kitchen->rules_said)
        return STATUS_OK;
    struct findings *findings = &kitchen->gatherings[0].findings;
    struct finding *finding = finding_add(findings, FINDING_UNKNOWN_RULES, kitchen->rules_place, GAPS(kitchen->rules_name));
    note_rules(kitchen->library, findings, finding);
    finding_note(findings, finding, WORDS_RULES_MEANWHILE, GAPS(text_of(USUAL_RULES)));
    kitchen->rules_said = false;
    kitchen->rules = rules_named(kitchen);
    return STATUS_OK;
}

/* The declarations of all gatherings as one list, in order of file. */
static struct declaration *join_declarations(struct kitchen *kitchen)
{
    struct declaration *first = NULL, **end = &first;
    for (;;) {
        struct gathering *next = NULL;
        for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
            struct gathering *gathering = &kitchen->gatherings[i];
            if (gathering->declarations && (!next || gathering->declarations->file < next->declarations->file))
                next = gathering;
        }
        if (!next)
            return first;
        *end = next->declarations;
        next->declarations = next->declarations->next;
        end = &(*end)->next;
        *end = NULL;
    }
}

/* Rules that the kitchen itself declares, compiled on their own for its labels: those need them before all else of the
 * kitchen is known. What is wrong with them is told later. */
struct early_rules {
    void *pack;
    struct library library;
    const struct rules *rules;
    const struct library *owner;
};

static enum status compile_early(struct kitchen *kitchen, const struct declaration *declarations, struct early_rules *early)
{
    char key[KEY_BYTES];
    struct findings unheard;
    struct declaration *first = NULL, **end = &first;
    size_t size;
    *early = (struct early_rules){ .rules = kitchen->rules, .owner = kitchen->rules_owner };
    for (const struct declaration *at = declarations; at && !early->rules; at = at->next) {
        if (!library_takes_rules(at))
            continue;
        if (!(*end = arena_take(&kitchen->arena, sizeof **end)))
            return STATUS_NO_MEMORY;
        **end = *at;
        (*end)->next = NULL;
        end = &(*end)->next;
    }
    findings_open(&unheard, &kitchen->arena);
    enum status status = first ? library_compile(kitchen->allocator, first, kitchen->below, NULL, NULL, &unheard, &early->pack, &size) : STATUS_OK;
    if (status != STATUS_OK)
        return status;
    if (early->pack)
        library_view(&early->library, early->pack, kitchen->below);
    if (early->pack)
        early->rules = library_rules(&early->library, (struct text){ key, name_key_of(kitchen->rules_name, false, key) }, &early->owner);
    if (!early->rules)                          /* the usual ones stand in: see report_rules */
        early->rules = library_rules(kitchen->below, (struct text){ key, name_key_of(text_of(USUAL_RULES), false, key) }, &early->owner);
    return STATUS_OK;
}

/* What the kitchen declares becomes a pack of its own before the standard library. */
static enum status compile_local(struct kitchen *kitchen)
{
    struct declaration *declarations = join_declarations(kitchen);
    struct early_rules early;
    size_t size;
    kitchen->rules = rules_named(kitchen);
    if (!declarations)
        return report_rules(kitchen);
    enum status status = compile_early(kitchen, declarations, &early);
    if (status == STATUS_OK)
        status = library_compile(kitchen->allocator, declarations, kitchen->below, early.rules, early.owner,
                                 &kitchen->gatherings[0].findings, &kitchen->local_pack, &size);
    if (early.pack)
        kitchen->allocator.resize(kitchen->allocator.context, early.pack, 0);
    if (status != STATUS_OK)
        return status;
    kitchen_tell_used_rules(kitchen, declarations);
    library_view(&kitchen->local, kitchen->local_pack, kitchen->below);
    kitchen->library = &kitchen->local;
    if (!kitchen->rules)
        kitchen->rules = rules_named(kitchen);
    return report_rules(kitchen);
}

enum status kitchen_link(struct kitchen *kitchen)
{
    enum status status = compile_local(kitchen);
    if (status != STATUS_OK)
        return status;
    choose_cautions(kitchen);
    if (!list_recipes(kitchen) || !list_weeks(kitchen))
        return STATUS_NO_MEMORY;
    if (!table_reserve(&kitchen->names, kitchen->recipes_count))
        return STATUS_NO_MEMORY;
    for (uint32_t i = 0; i < kitchen->recipes_count; i++)
        name_recipe(kitchen, i);
    check_week_names(kitchen);
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++)
        name_policies(kitchen, i);
    return kitchen->failed ? STATUS_NO_MEMORY : STATUS_OK;
}

/* ---- near names of recipes ------------------------------------------------------------------------------------------- */

/* Whether all but a few letters agree: enough to offer a name that was mistyped. */
static bool is_near(struct text a, struct text b)
{
    char first[KEY_BYTES], second[KEY_BYTES];
    uint32_t same = 0, x = name_key_of(a, true, first), y = name_key_of(b, true, second);
    uint32_t shorter = x < y ? x : y, longer = x < y ? y : x, ending = 0;
    while (same < shorter && first[same] == second[same])
        same++;
    while (ending < shorter - same && first[x - 1 - ending] == second[y - 1 - ending])
        ending++;
    return longer > 0 && (same + ending) * 10 >= longer * 7;
}

uint32_t kitchen_near_names(const struct kitchen *kitchen, struct text name, struct text *near, uint32_t most)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < kitchen->recipes_count && count < most; i++) {
        if (is_near(name, kitchen->recipes[i].recipe->name))
            near[count++] = kitchen->recipes[i].recipe->name;
    }
    return count;
}

static void offer_name(struct findings *findings, struct finding *finding, struct place place, struct text name)
{
    finding_note(findings, finding, WORDS_NEAR_NAME, GAPS(name));
    finding_fix(findings, finding, place, name, WORDS_FIX_NAME, GAPS(name));
}

/* Offers recipes, or days, with names near this one; returns how many. */
static uint32_t offer_recipes(const struct kitchen *kitchen, struct findings *findings, struct finding *finding, struct text name,
                              struct place place, bool days)
{
    uint32_t offered = 0;
    for (uint32_t i = 0; finding && i < kitchen->recipes_count && offered < 5; i++) {
        const struct recipe *recipe = kitchen->recipes[i].recipe;
        if (recipe->is_day != days || !is_near(name, recipe->name))
            continue;
        offer_name(findings, finding, place, recipe->name);
        offered++;
    }
    return offered;
}

void kitchen_near_days(const struct kitchen *kitchen, struct findings *findings, struct finding *finding, struct follow named)
{
    offer_recipes(kitchen, findings, finding, named.name, named.place, true);
}

void kitchen_near_recipes(const struct kitchen *kitchen, struct findings *findings, struct finding *finding,
                          struct text name, uint32_t file, struct span span, uint32_t shift)
{
    if (finding && ++kitchen->gatherings[0].near_searches > LIMIT_NEAR_SEARCHES)
        return;
    struct place place = { file, { span.start + shift, span.end + shift } };
    uint32_t offered = offer_recipes(kitchen, findings, finding, name, place, false);
    for (uint32_t i = 0; finding && kitchen->library != kitchen->below && i < kitchen->local.names_count && offered < 5; i++) {
        const struct name *label = &kitchen->local.names[i];
        struct text other = library_text(&kitchen->local, label->written);
        if (label->space != SPACE_LABEL || !is_near(name, other))
            continue;
        offer_name(findings, finding, place, other);
        offered++;
    }
}
