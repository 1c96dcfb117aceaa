/* quern report [PATH...] */
#include <stdio.h>
#include <string.h>

#include "command/command.h"

static const char help[] =
    "quern report [PATH...]   report what a serving of each recipe, a day or a week holds, and where it comes from\n"
    "\n"
    "Examples:\n"
    "  quern report soups/bean.quern                   on the terminal\n"
    "  quern report --recipe \"Plain loaf\" .            one recipe of the kitchen here\n"
    "  quern report --as html soups/bean.quern > bean.html    a page that stands by itself\n"
    "  quern report --as json --out reports .          a file for each recipe\n"
    "\n"
    "Options:\n"
    "  --as FORM              text, html, markdown, json, csv or jsonld (text); docs/schema describes the JSON\n"
    "  --lines                CSV with a row for each line, not for each nutrient\n"
    "  --recipe NAME          only this recipe, day or week\n"
    "  --for patients         a handout in plain words and large print, instead of the report\n"
    "  --servings N           a recipe to cook from, scaled to so many servings, instead of the report\n"
    "  --out DIR              a file for each of them in this folder; html and markdown have an index, too\n"
    "  --panel                the panel that the rules print, as text, html or markdown: an estimate, no statement of compliance\n"
    "  --dated                pages and handouts print the day: that of --today, of SOURCE_DATE_EPOCH, or of the clock\n"
    "  --strict               warnings, doubts among them, count as errors\n"
    "  --variation            ranges hold how samples of foods vary, where their source says it\n"
    "  --spoon-error P%       ranges hold that spoons and cups err by so much, 0% to 50% (0%)\n"
    "  --today YYYY-MM-DD     the day it is, for the age of packets (SOURCE_DATE_EPOCH, or the clock)\n"
    "  --jobs N               threads (1)\n"
    "  --allow FOLDER         `use` may read files below this folder, too\n"
    "  --follow-links         paths may lead out of their folders through links\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "  --colour auto|always|never\n"
    "\n"
    "Exit status: as `quern check` would exit.\n";

/* What is handed out instead of a report, where --for or --servings ask for it; false after a message. */
static bool read_handout(const struct options *options, struct quern_handout *handout)
{
    *handout = (struct quern_handout){ .recipe = options->recipe, .folder = options->out, .for_patients = options->audience != NULL };
    if (options->audience && strcmp(options->audience, "patients") != 0) {
        complain("quern report: --for knows `patients`, not `%s`", options->audience);
        return false;
    }
    return options_servings(options, "report", &handout->servings)
        && options_form(options, options->audience ? "report --for patients" : "report --servings", "text markdown html", &handout->form);
}

static void print_written(unsigned long long done, unsigned long long whole, int percent)
{
    if (whole)
        fprintf(stderr, "\rwrote %llu of %llu reports (%d%%) ", done, whole, percent);
    else                                /* of several kitchens nobody has counted all yet */
        fprintf(stderr, "\rwrote %llu reports ", done);
}

/* A call that is stopped leaves whole reports behind, and no pieces of one. */
static enum quern_status run_to_folder(struct quern_session *session, const char *const *paths, size_t count, const struct options *options, enum quern_form form)
{
    progress_begin(options->progress, print_written);
    enum quern_status status = quern_report_to_folder(session, paths, count, options->recipe, form, options->out, progress_write, options->progress);
    progress_clear(options->progress);
    return status;
}

int command_report(int count, char **arguments)
{
    static const char *const here[] = { "." };
    struct options options;
    enum quern_form form;
    enum quern_status status;
    if (!options_read(&options, "report", "as= recipe= out= for= servings= lines dated panel strict variation spoon-error= today= jobs= allow= follow-links library= colour=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    struct quern_handout handout;
    bool is_handout = options.audience || options.servings;
    if (is_handout ? !read_handout(&options, &handout) : !options_form(&options, "report", "text json csv jsonld html markdown", &form))
        return QUERN_FAILED;
    if (is_handout && options.panel) {
        complain("quern report: a panel is of a report; leave out --for and --servings, or --panel");
        return QUERN_FAILED;
    }
    if (options.lines && (is_handout || form != QUERN_AS_CSV)) {
        complain("quern report: --lines is for CSV: write --as csv --lines");
        return QUERN_FAILED;
    }
    if (options.panel && form != QUERN_AS_TEXT && form != QUERN_AS_HTML && form != QUERN_AS_MARKDOWN) {
        complain("quern report: a panel is told as text, html or markdown; `--as %s` without --panel has the unrounded figures", options.as);
        return QUERN_FAILED;
    }
    struct progress progress = { .shown = -1 };
    options.progress = options.out ? &progress : NULL;
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    const char *const *paths = options.path_count ? options.paths : here;
    size_t path_count = options.path_count ? (size_t)options.path_count : 1;
    if (is_handout)
        status = quern_handout(session, paths, path_count, &handout, write_standard, NULL);
    else if (options.out)
        status = run_to_folder(session, paths, path_count, &options, form);
    else
        status = quern_report(session, paths, path_count, options.recipe, form, write_standard, NULL);
    int result = command_status(session, status);
    if (options.out)
        progress_end(&progress);
    quern_close(session);
    return result;
}
