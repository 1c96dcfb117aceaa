/* quern import PATH --out DIR */
#include <signal.h>
#include <stdio.h>
#include <unistd.h>

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

static const int ending_signals[] = { SIGINT, SIGTERM, SIGHUP };

struct progress {
    bool on_terminal;
    sigset_t ending;                /* signals that end the import in good order */
    int shown;                      /* percent; -1: no line is there */
};

static void show_progress(struct progress *progress, unsigned long long done, unsigned long long whole)
{
    int percent = whole > 0 ? (int)(100.0 * (double)done / (double)whole) : 0;
    if (!progress->on_terminal || percent == progress->shown)
        return;
    progress->shown = percent;
    fprintf(stderr, "\rread %.0f of %.0f MB (%d%%) ", (double)done / MEGABYTE, (double)whole / MEGABYTE, percent);
}

/* Whether one of the signals is waiting: then the import stops and takes its files away before we go. */
static bool is_ended(const struct progress *progress)
{
    sigset_t pending;
    sigpending(&pending);
    for (size_t i = 0; i < COUNT_OF(ending_signals); i++) {
        if (sigismember(&progress->ending, ending_signals[i]) == 1 && sigismember(&pending, ending_signals[i]) == 1)
            return true;
    }
    return false;
}

static bool tell_progress(void *context, unsigned long long done, unsigned long long whole)
{
    struct progress *progress = context;
    show_progress(progress, done, whole);
    return !is_ended(progress);
}

static void clear_progress(struct progress *progress)
{
    if (progress->shown >= 0)
        fputs("\r\033[K", stderr);
    progress->shown = -1;
}

/* What is said stands on lines of its own. */
static bool say(void *context, const char *bytes, size_t length)
{
    clear_progress(context);
    return write_standard(NULL, bytes, length);
}

/* Those that are ignored (nohup) stay so. A file too large for the system is an error like a full disk, and no reason
 * to die. */
static void hold_signals(struct progress *progress)
{
    signal(SIGXFSZ, SIG_IGN);
    sigemptyset(&progress->ending);
    for (size_t i = 0; i < COUNT_OF(ending_signals); i++) {
        struct sigaction now;
        if (sigaction(ending_signals[i], NULL, &now) == 0 && now.sa_handler != SIG_IGN)
            sigaddset(&progress->ending, ending_signals[i]);
    }
    sigprocmask(SIG_BLOCK, &progress->ending, NULL);
}

static int run_import(struct quern_session *session, const struct options *options)
{
    struct progress progress = { .on_terminal = isatty(STDERR_FILENO), .shown = -1 };
    struct quern_import what = {
        .path = options->paths[0], .out = options->out, .form = options->form, .map = options->map,
        .source = options->source, .prefix = options->prefix, .skip_bad = options->skip_bad,
        .progress = tell_progress, .progress_context = &progress,
    };
    hold_signals(&progress);
    enum quern_status status = quern_import(session, &what, say, &progress);
    clear_progress(&progress);
    int result = command_status(session, status);
    sigprocmask(SIG_UNBLOCK, &progress.ending, NULL);
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
