/* The one formatter: catalogue sentences with their gaps filled. `{0}` to `{4}` are the gaps. */
#include <string.h>

#include "finding/finding.h"

struct entry {
    const char *code, *message, *help;
    enum severity severity;
    bool advice;
};

static const struct entry catalogue[] = {
#define FINDING(symbol, code, severity, message, help) { code, message, help, SEVERITY_##severity, false },
#define WORDING(symbol, message) { NULL, message, NULL, SEVERITY_NOTE, false },
#define ADVICE(symbol, message) { NULL, message, NULL, SEVERITY_NOTE, true },
#include "finding/catalogue.def"
#undef FINDING
#undef WORDING
#undef ADVICE
};

struct meaning {
    const char *code, *text;
};

static const struct meaning meanings[] = {
#define MEANING(code, text) { code, text },
#include "finding/meanings.def"
#undef MEANING
};

const char *catalogue_meaning(const char *code)
{
    for (size_t i = 0; i < sizeof meanings / sizeof *meanings; i++) {
        if (strcmp(meanings[i].code, code) == 0)
            return meanings[i].text;
    }
    return NULL;
}

static void fill_gaps(struct buffer *buffer, const char *message, const struct text *arguments)
{
    while (*message) {
        size_t plain = strcspn(message, "{");
        buffer_add(buffer, message, plain);
        message += plain;
        if (*message == '{' && message[1] >= '0' && message[1] < '0' + WORDS_ARGUMENTS && message[2] == '}') {
            struct text text = arguments[message[1] - '0'];
            buffer_add(buffer, text.bytes, text.length);
            message += 3;
        } else if (*message) {
            buffer_add(buffer, message++, 1);
        }
    }
}

const char *finding_code(const struct finding *finding)
{
    return catalogue[finding->words.code].code;
}

const char *severity_name(enum severity severity)
{
    static const char *const names[] = { "note", "warning", "error" };
    return names[severity];
}

void words_print(struct buffer *buffer, const struct words *words)
{
    fill_gaps(buffer, catalogue[words->code].message, words->arguments);
}

bool words_advise(const struct words *words)
{
    return catalogue[words->code].advice;
}

bool finding_help(struct buffer *buffer, const struct finding *finding)
{
    const char *help = catalogue[finding->words.code].help;
    if (!help || !*help)
        return false;
    fill_gaps(buffer, help, finding->words.arguments);
    return true;
}

const char *catalogue_code(uint32_t number)
{
    return number < WORDS_COUNT ? catalogue[number].code : NULL;
}

const char *catalogue_message(uint32_t number)
{
    return number < WORDS_COUNT ? catalogue[number].message : NULL;
}

const char *catalogue_help(uint32_t number)
{
    return number < WORDS_COUNT ? catalogue[number].help : NULL;
}

enum severity catalogue_severity(uint32_t number)
{
    return catalogue[number].severity;
}
