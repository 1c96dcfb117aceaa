/* command: one file for each command. It reads options, calls the library, and picks an output. */
#ifndef QUERN_COMMAND_H
#define QUERN_COMMAND_H

#include <signal.h>

#include "base/base.h"
#include "quern.h"

/* Runs one command; `arguments` begin behind its name. Returns the exit status. */
typedef int command_run(int count, char **arguments);

#define COMMAND(name, purpose) int command_##name(int count, char **arguments);
#include "command/commands.def"
#undef COMMAND

/* ---- progress.c */

typedef void progress_print(unsigned long long done, unsigned long long whole, int percent);

struct progress {
    bool on_terminal;
    sigset_t ending;                /* signals that end the work in good order */
    int shown;                      /* percent, or hundreds where the whole is unknown; -1: no line is there */
    progress_print *print;          /* to standard error, behind a carriage return */
};

/* From begin to end, signals that would end the program only make progress_tell, which quern.h takes as a callback, say no. The
 * end lets them through. */
void progress_begin(struct progress *progress, progress_print *print);
bool progress_tell(void *context, unsigned long long done, unsigned long long whole);
void progress_clear(struct progress *progress);     /* takes the line away */
void progress_end(struct progress *progress);

/* The sink that writes to standard output, on lines of its own. */
bool progress_write(void *context, const char *bytes, size_t length);

/* ---- options.c */

/* What a command line says, shared by all commands; each uses what it knows. */
struct options {
    const char *const *paths;
    int path_count;
    const char *as, *recipe, *out, *library, *show;
    const char *group, *lowest, *highest, *limit, *kitchen;     /* of a look-up */
    unsigned jobs;
    const char *form, *map, *source, *prefix;   /* of import */
    const char *since, *nutrient, *day;         /* of compare and rank */
    bool strict, variation, help, skip_bad, claims, lines, dated, panel;
    bool record;                                /* of a trace */
    const char *allowed[LIMIT_ALLOWED_FOLDERS];       /* of --allow */
    size_t allowed_count;
    bool follow_links;
    double spoon_error;                         /* a share */
    const char *colour, *today, *audience, *servings;
    struct progress *progress;                  /* of reports in a folder, or NULL */
};

/* Reads options and paths, in any order, up to `--`. Prints what is wrong and returns false. `known` lists the
 * options of the command, separated by blanks; those with a value end in `=`. */
bool options_read(struct options *options, const char *command, const char *known, int count, char **arguments);

/* The form that `--as` asks for, QUERN_AS_TEXT where it is not said. Prints what is wrong and returns false
 * when it is none of those that the command knows: `known` lists them, separated by blanks. */
bool options_form(const struct options *options, const char *command, const char *known, enum quern_form *form);

/* How much `--limit` asks for at most; as it was where it is not said. Prints what is wrong and returns false. */
bool options_limit(const struct options *options, const char *command, size_t *limit);

/* How many servings --servings asks for, 0 where it is not said. False, after a message, for what is no such number. */
bool options_servings(const struct options *options, const char *command, double *servings);

/* Prints a line to standard error; what came from the command line has its control characters made visible, so that
 * no argument drives a terminal. */
void complain(const char *format, ...) QUERN_PRINTF(1, 2);

/* The session for these options; NULL after a message. */
struct quern_session *options_session(const struct options *options);

/* Says why a call failed, and gives its status as the exit status. */
int command_status(const struct quern_session *session, enum quern_status status);

/* Prints to standard output and flushes all that was printed; a full disk is told, and is QUERN_FAILED. */
int command_print(const char *text);

/* The sink that writes to standard output. */
bool write_standard(void *context, const char *bytes, size_t length);

#endif
