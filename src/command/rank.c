/* quern rank [PATH...] */

#include "command/command.h"

static const char help[] =
    "quern rank [PATH...]   which foods and lines bring most sodium, over all recipes or in one day\n"
    "\n"
    "Each recipe counts once: cooked, and as one serving. Recipes inside recipes are opened up to their foods and count in\n"
    "the dishes that they stand in. What nobody knows is listed, and no share counts it.\n"
    "\n"
    "Examples:\n"
    "  quern rank                                      the kitchen here\n"
    "  quern rank soups --limit 5\n"
    "  quern rank --day \"Class menu, Tuesday\"\n"
    "\n"
    "Options:\n"
    "  --day NAME             only this day\n"
    "  --nutrient NAME        another nutrient (sodium)\n"
    "  --limit N              at most so many foods and lines (20)\n"
    "  --as FORM              text, json (docs/schema describes it), markdown, html (text)\n"
    "  --variation            ranges hold how samples of foods vary, where their source says it\n"
    "  --spoon-error P%       ranges hold that spoons and cups err by so much, 0% to 50% (0%)\n"
    "  --jobs N               threads (1)\n"
    "  --allow FOLDER         `use` may read files below this folder, too\n"
    "  --follow-links         paths may lead out of their folders through links\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "\n"
    "Exit status: 0 ranked, 1 ranked, but nobody knows what some line brings, 2 the work could not be done.\n";

int command_rank(int count, char **arguments)
{
    static const char *const here[] = { "." };
    struct options options;
    struct quern_rank wanted = { .paths = here, .count = 1 };
    if (!options_read(&options, "rank", "day= nutrient= limit= as= variation spoon-error= jobs= allow= follow-links library=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    if (!options_form(&options, "rank", "text json markdown html", &wanted.form) || !options_limit(&options, "rank", &wanted.limit))
        return QUERN_FAILED;
    if (options.path_count) {
        wanted.paths = options.paths;
        wanted.count = (size_t)options.path_count;
    }
    wanted.day = options.day;
    wanted.nutrient = options.nutrient;
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    int result = command_status(session, quern_rank(session, &wanted, write_standard, NULL));
    quern_close(session);
    return result;
}
