/* One input of the fuzzer, checked as a recipe file, as JSON and for people. Built in two ways: with libFuzzer
 * (tests/fuzz/run), which makes up inputs, and with replay.c (tests/fuzz/replay), which reads them from files. */
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
