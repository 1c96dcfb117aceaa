/* quern explain [CODE] */
#include <stdio.h>
#include <string.h>

#include "command/command.h"
#include "finding/finding.h"

static const char help[] =
    "quern explain [CODE]   list the codes of findings, or show what one says\n"
    "\n"
    "Examples:\n"
    "  quern explain\n"
    "  quern explain unknown-food\n";

/* Codes may stand in the catalogue several times, with other words. */
static bool is_first(uint32_t number)
{
    for (uint32_t i = 0; i < number; i++) {
        if (catalogue_code(i) && strcmp(catalogue_code(i), catalogue_code(number)) == 0)
            return false;
    }
    return true;
}

/* A sentence of the catalogue with dots in its gaps. */
static void print_sentence(const char *start, const char *sentence)
{
    fputs(start, stdout);
    for (; *sentence; sentence++) {
        if (sentence[0] == '{' && sentence[1] >= '0' && sentence[1] <= '9' && sentence[2] == '}') {
            fputs("...", stdout);
            sentence += 2;
        } else {
            putchar(*sentence);
        }
    }
    putchar('\n');
}

static void print_entry(uint32_t number)
{
    const char *help_words = catalogue_help(number);
    printf("%s (%s): ", catalogue_code(number), severity_name(catalogue_severity(number)));
    print_sentence("", catalogue_message(number));
    if (help_words && *help_words)
        print_sentence("    try: ", help_words);
}

/* In lines of 78 columns behind two blanks; the texts are plain letters. */
static void print_wrapped(const char *text)
{
    size_t column = 0;
    for (size_t length; *text; text += length + (text[length] == ' ')) {
        length = strcspn(text, " ");
        if (column + 1 + length > 78) {
            putchar('\n');
            column = 0;
        }
        column += (size_t)printf("%s%.*s", column ? " " : "  ", (int)length, text);
    }
    putchar('\n');
}

int command_explain(int count, char **arguments)
{
    struct options options;
    bool found = false;
    if (!options_read(&options, "explain", "", count, arguments))
        return QUERN_FAILED;
    if (options.help) {
        return command_print(help);
    }
    for (uint32_t i = 0; i < WORDS_COUNT; i++) {
        const char *code = catalogue_code(i);
        if (!code || (options.path_count && strcmp(code, options.paths[0]) != 0))
            continue;
        found = true;
        if (options.path_count)
            print_entry(i);
        else if (is_first(i))
            printf("%-22s %s\n", code, severity_name(catalogue_severity(i)));
    }
    const char *meaning = found && options.path_count ? catalogue_meaning(options.paths[0]) : NULL;
    if (meaning)
        print_wrapped(meaning);
    if (!found)
        complain("quern explain: no finding has the code `%s`; `quern explain` lists them", options.paths[0]);
    return command_print("") == QUERN_OK && found ? QUERN_OK : QUERN_FAILED;
}
