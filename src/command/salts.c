/* quern salts */
#include "command/command.h"

static const char help[] =
    "quern salts   tell what a spoonful of each salt and salty seasoning holds, from the library\n"
    "\n"
    "Which foods these are is for the library to say: those of groups that are declared to season.\n"
    "\n"
    "Examples:\n"
    "  quern salts\n"
    "  quern salts --as json > salts.json\n"
    "\n"
    "Options:\n"
    "  --as text|json|markdown|html   the form (text); docs/schema describes the JSON\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "\n"
    "Exit status: 0, or 2 when the work could not be done.\n";

int command_salts(int count, char **arguments)
{
    struct options options;
    enum quern_form form;
    if (!options_read(&options, "salts", "as= library=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    if (options.path_count) {
        complain("quern salts: it tells of the whole library and takes no `%s`; `quern lookup %s` tells of one food",
                 options.paths[0], options.paths[0]);
        return QUERN_FAILED;
    }
    if (!options_form(&options, "salts", "text json markdown html", &form))
        return QUERN_FAILED;
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    int result = command_status(session, quern_salts(session, form, write_standard, NULL));
    quern_close(session);
    return result;
}
