/* A line that tells how far a long work is, on a terminal only; and signals that end such a work in good order. */
#include <signal.h>
#include <stdio.h>
#include <unistd.h>

#include "command/command.h"

static const int ending_signals[] = { SIGINT, SIGTERM, SIGHUP };

/* Whether one of the signals is waiting: then the work stops and takes its files away before we go. */
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

bool progress_tell(void *context, unsigned long long done, unsigned long long whole)
{
    struct progress *progress = context;
    int percent = whole > 0 ? (int)(100.0 * (double)done / (double)whole) : (int)(done / 100);
    if (progress->on_terminal && percent != progress->shown) {
        progress->shown = percent;
        progress->print(done, whole, percent);
    }
    return !is_ended(progress);
}

void progress_clear(struct progress *progress)
{
    if (progress->shown >= 0)
        fputs("\r\033[K", stderr);
    progress->shown = -1;
}

bool progress_write(void *context, const char *bytes, size_t length)
{
    progress_clear(context);
    return write_standard(NULL, bytes, length);
}

/* Those that are ignored (nohup) stay so. */
void progress_begin(struct progress *progress, progress_print *print)
{
    *progress = (struct progress){ .on_terminal = isatty(STDERR_FILENO), .shown = -1, .print = print };
    sigemptyset(&progress->ending);
    for (size_t i = 0; i < COUNT_OF(ending_signals); i++) {
        struct sigaction now;
        if (sigaction(ending_signals[i], NULL, &now) == 0 && now.sa_handler != SIG_IGN)
            sigaddset(&progress->ending, ending_signals[i]);
    }
    sigprocmask(SIG_BLOCK, &progress->ending, NULL);
}

void progress_end(struct progress *progress)
{
    sigprocmask(SIG_UNBLOCK, &progress->ending, NULL);
}
