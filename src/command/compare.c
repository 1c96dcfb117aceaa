/* quern compare A B */
#include "command/command.h"

static const char help[] =
    "quern compare A B   say how much more B holds than A, per serving and per 100 g, and where that comes from\n"
    "\n"
    "A and B are names of recipes, days, labels or foods, of one kind or of two. What is the same in both cancels, so that\n"
    "it hides no difference; where the ranges of the rest overlap, no difference is certain.\n"
    "\n"
    "Examples:\n"
    "  quern compare \"Burger plate at home\" \"Burger plate as a diner serves it\"\n"
    "  quern compare \"canned chickpeas\" \"low sodium canned chickpeas\"\n"
    "  quern compare \"Plain loaf\" --since HEAD~1      the recipe as it was, and as it is now\n"
    "\n"
    "Options:\n"
    "  --since REVISION       with one name: against what it was at a revision of git\n"
    "  --kitchen PATH         where the names are looked for (here)\n"
    "  --nutrient NAME        whose lines are told (sodium)\n"
    "  --as FORM              text, json (docs/schema describes it), markdown, html (text)\n"
    "  --variation            ranges hold how samples of foods vary, where their source says it\n"
    "  --spoon-error P%       ranges hold that spoons and cups err by so much, 0% to 50% (0%)\n"
    "  --jobs N               threads (1)\n"
    "  --allow FOLDER         `use` may read files below this folder, too\n"
    "  --follow-links         paths may lead out of their folders through links\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "\n"
    "Exit status: 0 compared, 1 compared, but nobody knows all that one of them holds, 2 the work could not be done.\n";

static bool names_are_good(const struct options *options)
{
    int wanted = options->since ? 1 : 2;
    if (options->path_count == wanted)
        return true;
    if (options->since)
        complain("quern compare: with --since one name is compared, such as `quern compare \"Plain loaf\" --since HEAD~1`");
    else if (options->path_count == 1)
        complain("quern compare: to what is \"%s\" compared? Write a second name, or --since and a revision", options->paths[0]);
    else
        complain("quern compare: it takes two names, such as `quern compare \"Plain loaf\" \"Skillet cornbread\"`; names of several words stand in quotes");
    return false;
}

int command_compare(int count, char **arguments)
{
    struct options options;
    struct quern_compare wanted = { .first = NULL };
    if (!options_read(&options, "compare", "since= kitchen= nutrient= as= variation spoon-error= jobs= allow= follow-links library=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    if (!names_are_good(&options) || !options_form(&options, "compare", "text json markdown html", &wanted.form))
        return QUERN_FAILED;
    wanted.first = options.paths[0];
    wanted.second = options.since ? NULL : options.paths[1];
    wanted.since = options.since;
    wanted.kitchen = options.kitchen;
    wanted.nutrient = options.nutrient;
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    int result = command_status(session, quern_compare(session, &wanted, write_standard, NULL));
    quern_close(session);
    return result;
}
