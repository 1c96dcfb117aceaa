/* quern lookup WORDS */
#include <string.h>

#include "command/command.h"

static const char help[] =
    "quern lookup WORDS   find foods of the library by words of their names, or show the card of one\n"
    "\n"
    "The whole name of a food shows its card: values, portions, other names, source. A plain word that stands for kinds\n"
    "(butter) lists them. Other words, or an option for lists, list the foods whose names hold the words, then those\n"
    "with words that lie near, with sodium and potassium per 100 g and per usual portion.\n"
    "\n"
    "Examples:\n"
    "  quern lookup canned chickpeas                   the card of one food\n"
    "  quern lookup beans canned --lowest sodium       all canned beans, the least sodium first\n"
    "  quern lookup --group \"canned legumes\"           a group, and the groups within it\n"
    "  quern lookup kale --kitchen .                   and which recipes here use it\n"
    "\n"
    "Options for lists:\n"
    "  --lowest NUTRIENT, --highest NUTRIENT           sorted by what 100 g hold; unknown last\n"
    "  --group NAME           only foods of this group\n"
    "  --limit N              at most so many foods (20)\n"
    "  --as text|json|csv     the form (text); docs/schema describes the JSON, which holds the card, too\n"
    "\n"
    "Other options:\n"
    "  --kitchen PATH         with a whole name: which recipes there use the food; foods declared there are found\n"
    "  --allow FOLDER         `use` may read files below this folder, too\n"
    "  --follow-links         paths may lead out of their folders through links\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "\n"
    "Exit status: 0 found, 1 no food has all of the words (near names are listed), 2 the work could not be done.\n";

/* The words of the command line as one name. */
static bool join_words(struct buffer *words, const struct options *options)
{
    for (int i = 0; i < options->path_count; i++) {
        buffer_add_string(words, i ? " " : "");
        buffer_add_string(words, options->paths[i]);
    }
    buffer_add(words, "", 1);
    if (words->failed)
        complain("quern: out of memory");
    return !words->failed;
}

static int look_up(const struct options *options, const struct quern_lookup *wanted)
{
    struct quern_session *session = options_session(options);
    if (!session)
        return QUERN_FAILED;
    int result = command_status(session, quern_lookup(session, wanted, write_standard, NULL));
    quern_close(session);
    return result;
}

int command_lookup(int count, char **arguments)
{
    struct options options;
    struct buffer words;
    int result = QUERN_FAILED;
    if (!options_read(&options, "lookup", "allow= follow-links library= as= group= lowest= highest= limit= kitchen=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    if (options.path_count == 0 && !options.group) {
        complain("quern lookup: write the name of a food behind it, such as `quern lookup canned chickpeas`");
        return QUERN_FAILED;
    }
    struct quern_lookup wanted = { .group = options.group, .lowest = options.lowest, .highest = options.highest,
                                   .kitchen = options.kitchen };
    buffer_open(&words, allocator_standard());
    if (join_words(&words, &options) && options_form(&options, "lookup", "text json csv", &wanted.form) && options_limit(&options, "lookup", &wanted.limit)) {
        wanted.words = words.bytes;
        result = look_up(&options, &wanted);
    }
    buffer_close(&words);
    return result;
}
