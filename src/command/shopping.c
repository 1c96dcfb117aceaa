/* quern shopping [NAME...] */
#include "command/command.h"

static const char help[] =
    "quern shopping [NAME...]   sum up what to buy for recipes, days or weeks; without a name for every recipe here\n"
    "\n"
    "Recipes that others are made from are opened up into what they are made of. Cans and packets come whole; weights hold\n"
    "peel and bones. What cannot be summed is listed as it is written.\n"
    "\n"
    "Examples:\n"
    "  quern shopping \"Plain loaf\" \"Red lentil soup with lemon\"\n"
    "  quern shopping \"Class menu, Tuesday\"            a day\n"
    "  quern shopping \"Turkey chili\" --servings 24\n"
    "\n"
    "Options:\n"
    "  --servings N           every recipe is cooked for so many; days and weeks stay as they are\n"
    "  --kitchen PATH         where the names are looked for (here)\n"
    "  --as text|json|markdown|html   the form (text); docs/schema describes the JSON\n"
    "  --jobs N               threads (1)\n"
    "  --allow FOLDER         `use` may read files below this folder, too\n"
    "  --follow-links         paths may lead out of their folders through links\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "\n"
    "Exit status: 0, or 2 when the work could not be done.\n";

int command_shopping(int count, char **arguments)
{
    struct options options;
    struct quern_shopping wanted = { .names = NULL };
    if (!options_read(&options, "shopping", "servings= kitchen= as= jobs= allow= follow-links library=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    if (!options_servings(&options, "shopping", &wanted.servings) || !options_form(&options, "shopping", "text json markdown html", &wanted.form))
        return QUERN_FAILED;
    wanted.names = options.paths;
    wanted.count = (size_t)options.path_count;
    wanted.kitchen = options.kitchen;
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    int result = command_status(session, quern_shopping(session, &wanted, write_standard, NULL));
    quern_close(session);
    return result;
}
