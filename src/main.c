/* The command line: a thin client of the library. */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "command/command.h"

struct command {
    const char *name, *purpose;
    command_run *run;
};

static const struct command commands[] = {
#define COMMAND(name, purpose) { #name, purpose, command_##name },
#include "command/commands.def"
#undef COMMAND
};

#define COMMAND_COUNT (sizeof commands / sizeof *commands)

static int print_help(FILE *stream)
{
    fprintf(stream, "quern: recipes kept as text, and the sodium they hold\n\n");
    for (size_t i = 0; i < COMMAND_COUNT; i++)
        fprintf(stream, "  quern %-8s %s\n", commands[i].name, commands[i].purpose);
    fprintf(stream, "\n`quern COMMAND --help` says more. Figures are estimates; people under medical care follow their clinician.\n");
    return stream == stdout ? command_print("") : QUERN_FAILED;
}

/* A mapped pack that somebody cuts short, or whose disk fails, ends here: what was printed until then is not whole. */
static void end_at_lost_page(int number)
{
    static const char words[] = "quern: a pack was cut short, or could not be read, while it was in use: the work was not done\n";
    (void)number;
    ssize_t written = write(STDERR_FILENO, words, sizeof words - 1);
    (void)written;
    _exit(QUERN_FAILED);
}

/* A stream that is closed keeps its number, so that no file that is opened later takes its place and gets what was meant for
 * it. Reading and writing there fails, as it should. */
static void keep_streams(void)
{
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; stream++) {
        if (fcntl(stream, F_GETFD) < 0 && errno == EBADF && open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY) < 0)
            _exit(QUERN_FAILED);
    }
}

int main(int count, char **arguments)
{
    const char *name = count > 1 ? arguments[1] : "--help";
    keep_streams();
    signal(SIGPIPE, SIG_IGN);
    signal(SIGBUS, end_at_lost_page);
    signal(SIGXFSZ, SIG_IGN);           /* a file that may not grow is a failed write, as a full disk is */
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        if (strcmp(commands[i].name, name) == 0)
            return commands[i].run(count - 2, arguments + 2);
    }
    if (strcmp(name, "--help") == 0 || strcmp(name, "-h") == 0 || strcmp(name, "help") == 0)
        return print_help(stdout);
    if (strcmp(name, "--version") == 0) {
        printf("quern %s\n", quern_version());
        return command_print("");
    }
    complain("quern: no command is called `%s`", name);
    fputc('\n', stderr);
    print_help(stderr);
    return QUERN_FAILED;
}
