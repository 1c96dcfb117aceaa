/* quern import PATH --out DIR */
#include <stdio.h>

#include "command/command.h"

static const char help[] =
    "quern import PATH --out DIR   turn tables of foods into .quern files\n"
    "\n"
    "PATH is a table (CSV, TSV) with a mapping that says what its columns are, or a folder of published tables.\n"
    "\n"
    "Examples:\n"
    "  quern import packets.csv --map packets.map --out pantry\n"
    "  quern import sr28asc --out foods               FOOD_DES.txt, NUT_DATA.txt, WEIGHT.txt, NUTR_DEF.txt\n"
    "  quern import central --out foods --skip-bad    food.csv, food_nutrient.csv, nutrient.csv, food_portion.csv, ...\n"
    "  quern import packets.csv --map packets.map --out shop.pack\n"
    "\n"
    "Options:\n"
    "  --out DIR              where to write NAME-0001.quern and, after 16 MiB each, more of them\n"
    "  --out FILE.pack        a pack instead, which a kitchen takes in at once; its memory grows with the foods\n"
    "  --map FILE             what the columns of the table are; docs/import.md describes it\n"
    "  --form release|central|table   the form of the tables (found out by the names of the files)\n"
    "  --skip-bad             leave wrong rows out and count them; without it one wrong row is enough to write nothing\n"
    "  --source TEXT          what every food cites before its number (as the mapping says)\n"
    "  --prefix NAME          how the files are called (as PATH is)\n"
    "  --library FILE         a library pack instead of the built-in one\n"
    "\n"
    "Exit status: 0 written, 1 something is wrong and nothing was written, 2 the work could not be done.\n";

#define MEGABYTE 1000000.0

static void print_read(unsigned long long done, unsigned long long whole, int percent)
{
    fprintf(stderr, "\rread %.0f of %.0f MB (%d%%) ", (double)done / MEGABYTE, (double)whole / MEGABYTE, percent);
}

static int run_import(struct quern_session *session, const struct options *options)
{
    struct progress progress;
    struct quern_import what = {
        .path = options->paths[0], .out = options->out, .form = options->form, .map = options->map,
        .source = options->source, .prefix = options->prefix, .skip_bad = options->skip_bad,
        .progress = progress_tell, .progress_context = &progress,
    };
    progress_begin(&progress, print_read);
    enum quern_status status = quern_import(session, &what, progress_write, &progress);
    progress_clear(&progress);
    int result = command_status(session, status);
    progress_end(&progress);
    return result;
}

int command_import(int count, char **arguments)
{
    struct options options;
    if (!options_read(&options, "import", "out= form= map= source= prefix= skip-bad library=", count, arguments))
        return QUERN_FAILED;
    if (options.help)
        return command_print(help);
    if (options.path_count != 1 || !options.out) {
        complain("quern import: write what to import and where to: `quern import packets.csv --map packets.map --out pantry`");
        return QUERN_FAILED;
    }
    struct quern_session *session = options_session(&options);
    if (!session)
        return QUERN_FAILED;
    int result = run_import(session, &options);
    quern_close(session);
    return result;
}
