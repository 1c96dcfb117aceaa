/* quern check [PATH...] */
#include <stdio.h>
#include <string.h>

#include "command/command.h"

static const char help[] =
    "quern check [PATH...]   check recipes, folders of recipes, or standard input (-)\n"
    "\n"
    "Examples:\n"
    "  quern check                       the kitchen in this folder\n"
    "  quern check soups/bean.quern      one file; the kitchen around it is read, too\n"
    "  quern check --strict .            for CI: warnings and doubts are errors\n"
    "\n"
    "Options:\n"
    "  --as text|json         how findings are printed (text)\n"
    "  --strict               warnings, doubts among them, count as errors\n"
    "  --claims               what each recipe could claim by the rules in force, and what stands in the way\n"
    "  --variation            ranges hold how samples of foods vary, where their source says it\n"
    "  --spoon-error P%       ranges hold that spoons and cups err by so much, 0% to 50% (0%)\n"
    "  --today YYYY-MM-DD     the day it is, for the age of packets (SOURCE_DATE_EPOCH, or the clock)\n"
    "  --jobs N               threads (1)\n"
    "  --allow FOLDER         `use` may read files below this folder, too\n"
    "  --follow-links         paths may lead out of their folders through links\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "  --colour auto|always|never\n"
    "  --show tokens|tree|names|amounts|limits   what a stage left, of one file\n"
    "\n"
    "Exit status: 0 no error, 1 findings of severity error, 2 the work could not be done, 3 a defect in Quern.\n";

int command_check(int count, char **arguments)
{
    static const char *const here[] = { "." };
    struct options options;
    enum quern_status status;
    if (!options_read(&options, "check", "as= strict claims variation spoon-error= today= jobs= allow= follow-links library= colour= show=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    enum quern_form form;
    if (!options_form(&options, "check", "text json", &form))
        return QUERN_FAILED;
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    const char *const *paths = options.path_count ? options.paths : here;
    size_t path_count = options.path_count ? (size_t)options.path_count : 1;
    if (options.show)
        status = quern_show(session, options.show, paths[0], write_standard, NULL);
    else
        status = quern_check(session, paths, path_count, form, write_standard, NULL);
    int result = command_status(session, status);
    quern_close(session);
    return result;
}
