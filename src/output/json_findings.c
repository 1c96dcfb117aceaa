/* Findings in JSON. */
#include "output/json.h"

static void add_words(struct showing *showing, cJSON *object, const char *key, const struct words *words, struct allocator allocator)
{
    struct buffer buffer;
    buffer_open(&buffer, allocator);
    words_print(&buffer, words);
    json_text(showing, object, key, (struct text){ buffer.bytes, (uint32_t)buffer.length });
    showing->json_failed = showing->json_failed || buffer.failed;
    buffer_close(&buffer);
}

static void add_place(struct showing *showing, cJSON *object, struct place place)
{
    struct position position = sources_position(&showing->sources, place);
    json_text(showing, object, "file", text_of(sources_path(&showing->sources, place.file)));
    json_kept(showing, cJSON_AddNumberToObject(object, "line", position.line));
    json_kept(showing, cJSON_AddNumberToObject(object, "column", position.column));
    json_kept(showing, cJSON_AddNumberToObject(object, "end_line", position.end_line));
    json_kept(showing, cJSON_AddNumberToObject(object, "end_column", position.end_column));
}

static void add_notes(struct showing *showing, cJSON *object, const struct finding *finding, struct allocator allocator)
{
    cJSON *notes = json_kept(showing, cJSON_AddArrayToObject(object, "notes"));
    for (const struct finding_note *note = finding->notes; note; note = note->next) {
        struct buffer buffer;
        buffer_open(&buffer, allocator);
        words_print(&buffer, &note->words);
        cJSON_AddItemToArray(notes, json_kept(showing, cJSON_CreateString(buffer.bytes ? buffer.bytes : "")));
        showing->json_failed = showing->json_failed || buffer.failed;
        buffer_close(&buffer);
    }
}

static void add_labels(struct showing *showing, cJSON *object, const struct finding *finding)
{
    cJSON *labels = json_kept(showing, cJSON_AddArrayToObject(object, "labels"));
    for (const struct finding_label *label = finding->labels; label; label = label->next) {
        cJSON *one = json_kept(showing, cJSON_CreateObject());
        add_words(showing, one, "message", &label->words, showing->kitchen->allocator);
        add_place(showing, one, label->place);
        cJSON_AddItemToArray(labels, one);
    }
}

static void add_fixes(struct showing *showing, cJSON *object, const struct finding *finding)
{
    cJSON *fixes = json_kept(showing, cJSON_AddArrayToObject(object, "fixes"));
    for (const struct finding_fix *fix = finding->fixes; fix; fix = fix->next) {
        cJSON *one = json_kept(showing, cJSON_CreateObject()), *edit = json_kept(showing, cJSON_CreateObject());
        add_words(showing, one, "title", &fix->title, showing->kitchen->allocator);
        add_place(showing, edit, fix->place);
        json_text(showing, edit, "text", fix->replacement);
        cJSON_AddItemToArray(json_kept(showing, cJSON_AddArrayToObject(one, "edits")), edit);
        cJSON_AddItemToArray(fixes, one);
    }
}

cJSON *json_make_finding(struct showing *showing, const struct finding *finding)
{
    struct buffer help;
    cJSON *object = json_kept(showing, cJSON_CreateObject());
    json_kept(showing, cJSON_AddStringToObject(object, "code", finding_code(finding)));
    json_kept(showing, cJSON_AddStringToObject(object, "severity", severity_name(shown_severity(showing, finding))));
    add_words(showing, object, "message", &finding->words, showing->kitchen->allocator);
    add_place(showing, object, finding->place);
    add_labels(showing, object, finding);
    add_notes(showing, object, finding, showing->kitchen->allocator);
    buffer_open(&help, showing->kitchen->allocator);
    if (finding_help(&help, finding))
        json_text(showing, object, "help", (struct text){ help.bytes, (uint32_t)help.length });
    showing->json_failed = showing->json_failed || help.failed;
    buffer_close(&help);
    add_fixes(showing, object, finding);
    return object;
}

void json_finding(struct showing *showing, struct writer *writer, const struct finding *finding)
{
    json_print(showing, writer, json_make_finding(showing, finding));
}
