#include "unit/support.h"

#include <dirent.h>
#include <math.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

int suite_run(Suite *suite)
{
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int ran = srunner_ntests_run(runner), failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    printf("%d passed, %d failed\n", ran - failed, failed);
    return ran > 0 && failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

/* ---- memory that runs out */

void *budget_resize(void *context, void *block, size_t size)
{
    struct budget *budget = context;
    if (size == 0) {
        budget->live -= block != NULL;
        free(block);
        return NULL;
    }
    budget->asked++;
    if (budget->left == 0)
        return NULL;
    budget->left--;
    budget->live += block == NULL;
    void *moved = malloc(size);         /* always elsewhere, so that a pointer into the old block shows */
    ck_assert_ptr_nonnull(moved);
    memset(moved, 0xa5, size);
    if (block) {
        void *grown = realloc(block, size);
        ck_assert_ptr_nonnull(grown);
        memcpy(moved, grown, size);
        free(grown);
    }
    return moved;
}

struct allocator budget_allocator(struct budget *budget)
{
    return (struct allocator){ budget_resize, budget };
}

/* ---- a text parsed alone */

static bool keep_node(void *context, struct node *node)
{
    struct parsed *parsed = context;
    if (parsed->last)
        parsed->last->next = node;
    else
        parsed->first = node;
    parsed->last = node;
    return true;
}

void parsed_open(struct parsed *parsed, const char *bytes, size_t length)
{
    memset(parsed, 0, sizeof *parsed);
    arena_open(&parsed->arena, allocator_standard());
    arena_open(&parsed->findings_arena, allocator_standard());
    findings_open(&parsed->findings, &parsed->findings_arena);
    buffer_open(&parsed->buffer, allocator_standard());
    ck_assert(buffer_reserve(&parsed->buffer, length + 2));
    if (length)
        memcpy(parsed->buffer.bytes, bytes, length);
    memset(parsed->buffer.bytes + length, 0, 2);
    parse_open(&parsed->parse, allocator_standard(), &parsed->arena, &parsed->findings, keep_node, parsed);
    parsed->status = parse_text(&parsed->parse, 0, parsed->buffer.bytes, (uint32_t)length);
}

void parsed_close(struct parsed *parsed)
{
    parse_close(&parsed->parse);
    buffer_close(&parsed->buffer);
    arena_close(&parsed->findings_arena);
    arena_close(&parsed->arena);
}

void findings_list(struct findings *findings, char *storage, size_t size)
{
    struct finding **sorted = findings_sorted(findings);
    size_t used = 0;
    storage[0] = '\0';
    for (uint32_t i = 0; i < findings->count && used < size; i++)
        used += (size_t)snprintf(storage + used, size - used, "%s%s", i ? " " : "", finding_code(sorted[i]));
}

void expect_syntax(const char *text, const char *codes)
{
    char found[4096];
    struct parsed parsed;
    parsed_open(&parsed, text, strlen(text));
    ck_assert_int_eq(parsed.status, STATUS_OK);
    findings_list(&parsed.findings, found, sizeof found);
    ck_assert_msg(strcmp(found, codes) == 0, "expected `%s`, got `%s` for:\n%s", codes, found, text);
    parsed_close(&parsed);
}

bool span_is(const struct parsed *parsed, struct span span, const char *expected)
{
    return text_is(span_text(parsed->parse.text, span), expected);
}

/* ---- the whole program */

bool sink_buffer(void *context, const char *bytes, size_t length)
{
    struct buffer *buffer = context;
    buffer_add(buffer, bytes, length);
    return !buffer->failed;
}

static cJSON *parse_json(const struct buffer *buffer)
{
    cJSON *json = cJSON_ParseWithLength(buffer->bytes, buffer->length);
    ck_assert_msg(json != NULL, "no JSON: %.200s", buffer->bytes ? buffer->bytes : "(nothing)");
    return json;
}

void check_codes(const char *text, char *storage, size_t size)
{
    struct buffer buffer;
    size_t used = 0;
    const cJSON *finding;
    struct quern_session *session = quern_open(NULL);
    ck_assert_ptr_nonnull(session);
    buffer_open(&buffer, allocator_standard());
    enum quern_status status = quern_check_text(session, "test.quern", text, strlen(text), QUERN_AS_JSON, sink_buffer, &buffer);
    ck_assert_msg(status == QUERN_OK || status == QUERN_FINDINGS, "%s", quern_failure(session));
    cJSON *json = parse_json(&buffer);
    storage[0] = '\0';
    cJSON_ArrayForEach(finding, cJSON_GetObjectItem(json, "findings"))
        used += (size_t)snprintf(storage + used, used < size ? size - used : 0, "%s%s", used ? " " : "", json_string(finding, "code"));
    cJSON_Delete(json);
    buffer_close(&buffer);
    quern_close(session);
}

void expect_codes(const char *text, const char *codes)
{
    char found[8192];
    check_codes(text, found, sizeof found);
    ck_assert_msg(strcmp(found, codes) == 0, "expected `%s`, got `%s` for:\n%s", codes, found, text);
}

cJSON *report_of(const char *text)
{
    char folder[256], path[300];
    const char *paths[] = { path };
    struct buffer buffer;
    folder_make(folder, sizeof folder);
    file_write(folder, "test.quern", text, strlen(text));
    snprintf(path, sizeof path, "%s/test.quern", folder);
    struct quern_session *session = quern_open(NULL);
    buffer_open(&buffer, allocator_standard());
    enum quern_status status = quern_report(session, paths, 1, NULL, QUERN_AS_JSON, sink_buffer, &buffer);
    ck_assert_msg(status == QUERN_OK || status == QUERN_FINDINGS, "%s", quern_failure(session));
    cJSON *json = parse_json(&buffer);
    buffer_close(&buffer);
    quern_close(session);
    folder_remove(folder);
    return json;
}

const cJSON *json_at(const cJSON *json, const char *path)
{
    while (json && *path) {
        char name[64];
        size_t length = strcspn(path, "/");
        snprintf(name, sizeof name, "%.*s", (int)length, path);
        json = cJSON_IsArray(json) ? cJSON_GetArrayItem(json, atoi(name)) : cJSON_GetObjectItemCaseSensitive(json, name);
        path += length + (path[length] == '/');
    }
    return json;
}

double number_at(const cJSON *json, const char *path)
{
    const cJSON *found = json_at(json, path);
    ck_assert_msg(cJSON_IsNumber(found), "%s is no number", path);
    return found->valuedouble;
}

bool json_is_null(const cJSON *json, const char *path)
{
    return cJSON_IsNull(json_at(json, path));
}

const char *json_string(const cJSON *json, const char *path)
{
    const cJSON *found = json_at(json, path);
    ck_assert_msg(cJSON_IsString(found), "%s is no string", path);
    return found->valuestring;
}

static void expect_number(const cJSON *json, const char *path, const char *end, double expected)
{
    char name[256];
    snprintf(name, sizeof name, "%s/%s", path, end);
    double found = number_at(json, name);
    ck_assert_msg(fabs(found - expected) <= 1e-9 * fmax(fabs(expected), 1e-3), "%s is %.12g, expected %.12g", name, found, expected);
}

void expect_range(const cJSON *json, const char *path, double low, double best, double high)
{
    expect_number(json, path, "low", low);
    expect_number(json, path, "best", best);
    expect_number(json, path, "high", high);
}

/* ---- files */

void folder_make(char *path, size_t size)
{
    const char *parent = getenv("TMPDIR");
    snprintf(path, size, "%s/quern-unit-XXXXXX", parent && *parent ? parent : "/tmp");
    ck_assert_ptr_nonnull(mkdtemp(path));
}

void folder_remove(const char *path)
{
    DIR *folder = opendir(path);
    for (struct dirent *entry; folder && (entry = readdir(folder));) {
        char name[600];
        snprintf(name, sizeof name, "%s/%s", path, entry->d_name);
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0 && unlink(name) != 0)
            folder_remove(name);
    }
    if (folder)
        closedir(folder);
    rmdir(path);
}

void file_write(const char *folder, const char *name, const char *bytes, size_t length)
{
    char path[600];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

char *text_repeat(const char *head, const char *middle, size_t count, const char *foot)
{
    size_t head_length = strlen(head), length = strlen(middle), foot_length = strlen(foot);
    char *text = malloc(head_length + count * length + foot_length + 1), *at = text + head_length;
    ck_assert_ptr_nonnull(text);
    memcpy(text, head, head_length);
    for (size_t i = 0; i < count; i++, at += length)
        memcpy(at, middle, length);
    memcpy(at, foot, foot_length + 1);
    return text;
}

double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}
