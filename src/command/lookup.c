/* quern lookup WORDS */
#include <stdio.h>
#include <string.h>

#include "command/command.h"

static const char help[] =
    "quern lookup WORDS   show a food of the library: values, portions, other names, source\n"
    "\n"
    "Examples:\n"
    "  quern lookup canned chickpeas\n"
    "  quern lookup kale\n"
    "\n"
    "Options:\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "\n"
    "Exit status: 0 found, 1 no food of this name (near names are listed), 2 the work could not be done.\n";

/* The words of the command line as one name; false when they do not fit. */
static bool join_words(char *storage, size_t size, const struct options *options)
{
    size_t used = 0;
    for (int i = 0; i < options->path_count; i++) {
        int length = snprintf(storage + used, size - used, "%s%s", i ? " " : "", options->paths[i]);
        if (length < 0 || (size_t)length >= size - used)
            return false;
        used += (size_t)length;
    }
    return used > 0;
}

int command_lookup(int count, char **arguments)
{
    struct options options;
    char words[512];
    if (!options_read(&options, "lookup", "library=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    if (!join_words(words, sizeof words, &options)) {
        complain("quern lookup: write the name of a food behind it, such as `quern lookup canned chickpeas`");
        return QUERN_FAILED;
    }
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    int result = command_status(session, quern_lookup(session, words, write_standard, NULL));
    quern_close(session);
    return result;
}
