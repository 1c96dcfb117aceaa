/* Claims as JSON. */
#include "output/json.h"

struct claims_list {
    struct showing *showing;
    cJSON *list;
};

static void add_reasons(struct showing *showing, cJSON *object, const struct claim_told *told)
{
    struct arena arena;
    struct findings findings;
    struct buffer words;
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "reasons"));
    arena_open(&arena, showing->kitchen->allocator);
    buffer_open(&words, showing->kitchen->allocator);
    findings_open(&findings, &arena);
    const struct finding *finding = claim_explain(told, &findings);
    for (const struct finding_note *note = finding ? finding->notes : NULL; note; note = note->next) {
        words.length = 0;
        words_print(&words, &note->words);
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "text", (struct text){ words.bytes, (uint32_t)words.length });
        cJSON_AddItemToArray(list, one);
    }
    showing->json_failed = showing->json_failed || findings.failed || words.failed;
    buffer_close(&words);
    arena_close(&arena);
}

static void add_must_stand(struct showing *showing, cJSON *object, const struct claim_told *told)
{
    cJSON *list = json_kept(showing, cJSON_AddArrayToObject(object, "must_stand"));
    for (uint32_t i = 0; i < told->grounds->count; i++) {
        if (told->grounds->at[i].why != GROUND_NOTE)
            continue;
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        json_text(showing, one, "text", told->grounds->at[i].words);
        cJSON_AddItemToArray(list, one);
    }
}

static void add_told(void *context, const struct claim_told *told)
{
    static const char *const uses[] = { "claim", "disclosure", "mark" };
    struct claims_list *claims = context;
    struct showing *showing = claims->showing;
    const struct library *owner = showing->kitchen->rules_owner;
    if (!told->claim)
        return;
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_kept(showing, cJSON_AddStringToObject(object, "kind", uses[told->claim->use]));
    json_text(showing, object, "name", told->said ? told->said->name : library_text(owner, told->claim->name));
    json_text(showing, object, "rules", library_text(owner, showing->kitchen->rules->name));
    json_kept(showing, cJSON_AddStringToObject(object, "outcome", claim_outcome_name(told->grounds->outcome)));
    json_text(showing, object, "source", claim_source(owner, told->claim, told->grounds->count ? &told->grounds->at[0] : NULL));
    if (told->said && told->said->compared.length)
        json_text(showing, object, "compared", told->said->compared);
    if (told->policy)
        json_text(showing, object, "policy", told->policy->name);
    add_reasons(showing, object, told);
    add_must_stand(showing, object, told);
    cJSON_AddItemToArray(claims->list, object);
}

void json_add_claims(struct showing *showing, cJSON *object, const struct sums *sums)
{
    struct sums other;
    struct claims_list claims = { showing, json_kept(showing, cJSON_AddArrayToObject(object, "claims")) };
    if (!recipe_has_claims(sums->at))
        return;
    sums_open(&other, showing->kitchen->allocator);
    if (recipe_claims(sums, &other, add_told, &claims) != STATUS_OK)
        showing->json_failed = true;
    sums_close(&other);
}

void json_could_claim(struct showing *showing, struct writer *writer, const struct sums *sums)
{
    const struct recipe *recipe = sums->at.recipe;
    const struct kitchen *kitchen = showing->kitchen;
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_text(showing, object, "recipe", recipe->name);
    json_text(showing, object, "file", text_of(sources_path(&showing->sources, recipe->file)));
    struct position position = sources_position(&showing->sources, (struct place){ recipe->file, recipe->title });
    json_kept(showing, cJSON_AddNumberToObject(object, "line", position.line));
    struct claims_list claims = { showing, json_kept(showing, cJSON_AddArrayToObject(object, "could_claim")) };
    if (recipe_could_claim(sums, add_told, &claims) != STATUS_OK)
        showing->json_failed = true;
    json_text(showing, object, "notice", kitchen->rules ? library_text(kitchen->rules_owner, kitchen->rules->notice) : (struct text){ "", 0 });
    json_print(showing, writer, object);
}
