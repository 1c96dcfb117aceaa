/* One input of the fuzzer, checked as a recipe file, as JSON and for people. Built in two ways: with libFuzzer
 * (tests/fuzz/run), which makes up inputs, and with main below (tests/fuzz/replay), which reads them from files. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "quern.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

static bool forget(void *context, const char *bytes, size_t length)
{
    (void)bytes;
    *(size_t *)context += length;
    return true;
}

static void check(const uint8_t *bytes, size_t size, enum quern_form form)
{
    size_t written = 0;
    struct quern_session *session = quern_open(NULL);
    char *text = malloc(size ? size : 1);       /* of just this size, so that reads past its end show */
    if (!session || !text)
        abort();
    memcpy(text, bytes, size);
    enum quern_status status = quern_check_text(session, "input.quern", text, size, form, forget, &written);
    if ((status != QUERN_OK && status != QUERN_FINDINGS) || quern_failure(session)[0])
        abort();
    free(text);
    quern_close(session);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    check(bytes, size, QUERN_AS_JSON);
    check(bytes, size, QUERN_AS_TEXT);
    return 0;
}

#ifdef QUERN_REPLAY
static uint8_t *read_whole(const char *path, size_t *size)
{
    FILE *file = fopen(path, "rb");
    size_t capacity = 1 << 16;
    uint8_t *bytes = malloc(capacity);
    *size = 0;
    while (file && bytes) {
        size_t count = fread(bytes + *size, 1, capacity - *size, file);
        *size += count;
        if (count == 0)
            break;
        if (*size == capacity)
            bytes = realloc(bytes, capacity *= 2);
    }
    if (file)
        fclose(file);
    else
        *size = SIZE_MAX;
    return bytes;
}

/* A crash ends the program: then the last line before it names the input, and no count is printed. */
int main(int count, char **paths)
{
    int passed = 0;
    for (int i = 1; i < count; i++) {
        size_t size;
        uint8_t *bytes = read_whole(paths[i], &size);
        if (!bytes || size == SIZE_MAX) {
            fprintf(stderr, "cannot read %s\n", paths[i]);
            return 1;
        }
        fprintf(stderr, "%s\n", paths[i]);
        LLVMFuzzerTestOneInput(bytes, size);
        free(bytes);
        passed++;
    }
    printf("%d passed, 0 failed\n", passed);
    return passed > 0 ? 0 : 1;
}
#endif
