/* quern trace RECIPE [NUTRIENT] */
#include "command/command.h"

static const char help[] =
    "quern trace RECIPE [NUTRIENT]   the whole sum behind a figure, from each line to what a serving holds\n"
    "\n"
    "NUTRIENT is sodium unless it is said: a nutrient of the report, `sodium from cook-added` (or `inherent`,\n"
    "`maker-added`, `unseparated`), or `weight` for grams. RECIPE may be a day.\n"
    "\n"
    "Examples:\n"
    "  quern trace \"Chickpea curry\"                    sodium, in the kitchen here\n"
    "  quern trace \"Plain loaf\" potassium --kitchen soups\n"
    "  quern trace \"Plain loaf\" --record               the record that a menu's figures rest on\n"
    "\n"
    "Options:\n"
    "  --kitchen PATH         the kitchen, or a file of it (.); - for standard input\n"
    "  --as text|json|markdown|html   the form (text); docs/schema describes the JSON\n"
    "  --record               what 21 CFR 101.11(c)(3)(i) asks to be kept of figures from a database: all nutrients,\n"
    "                         with places for signatures\n"
    "  --strict               warnings, doubts among them, count as errors\n"
    "  --variation            ranges hold how samples of foods vary, where their source says it\n"
    "  --spoon-error P%       ranges hold that spoons and cups err by so much, 0% to 50% (0%)\n"
    "  --allow FOLDER         `use` may read files below this folder, too\n"
    "  --follow-links         paths may lead out of their folders through links\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "\n"
    "Exit status: 0 traced, 1 traced and an error speaks of it, 2 the work could not be done.\n";

int command_trace(int count, char **arguments)
{
    struct options options;
    enum quern_form form;
    if (!options_read(&options, "trace", "as= kitchen= record strict variation spoon-error= allow= follow-links library=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    if (options.path_count < 1 || options.path_count > 2) {
        complain("quern trace: write the name of a recipe behind it, in quotes, and perhaps a nutrient, such as `quern trace \"Plain loaf\" potassium`");
        return QUERN_FAILED;
    }
    if (!options_form(&options, "trace", "text json markdown html", &form))
        return QUERN_FAILED;
    if (options.record && form == QUERN_AS_JSON) {
        complain("quern trace: a record has no JSON: without --record the trace of each nutrient has");
        return QUERN_FAILED;
    }
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    struct quern_trace wanted = { .recipe = options.paths[0], .nutrient = options.path_count > 1 ? options.paths[1] : NULL,
                                  .kitchen = options.kitchen, .record = options.record, .form = form };
    int result = command_status(session, quern_trace(session, &wanted, write_standard, NULL));
    quern_close(session);
    return result;
}
