/* lookups: looks something up again and again in a library that stays open, and says how fast.
 *
 *     lookups PACK [--group NAME] [--lowest NUTRIENT] WORD...    ->  lookups per second, median milliseconds of one
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "quern.h"

#define SECONDS 0.5
#define MOST 1000000

static double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static bool count_bytes(void *context, const char *bytes, size_t length)
{
    (void)bytes;
    *(size_t *)context += length;
    return true;
}

static int compare_times(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static void read_arguments(struct quern_lookup *wanted, char *words, size_t size, int count, char **arguments)
{
    for (int i = 2; i < count; i++) {
        if (strcmp(arguments[i], "--group") == 0 && i + 1 < count)
            wanted->group = arguments[++i];
        else if (strcmp(arguments[i], "--lowest") == 0 && i + 1 < count)
            wanted->lowest = arguments[++i];
        else
            snprintf(words + strlen(words), size - strlen(words), " %s", arguments[i]);
    }
    wanted->words = words;
}

int main(int count, char **arguments)
{
    static double times[MOST];
    char words[1000] = "";
    struct quern_lookup wanted = { 0 };
    struct quern_options options = { .library_path = count > 1 ? arguments[1] : NULL };
    struct quern_session *session = quern_open(&options);
    size_t bytes = 0, runs = 0;
    read_arguments(&wanted, words, sizeof words, count, arguments);
    enum quern_status status = quern_lookup(session, &wanted, count_bytes, &bytes);     /* opens the library */
    double start = seconds_now(), now = start;
    while (status != QUERN_FAILED && runs < MOST && now - start < SECONDS) {
        double before = now;
        status = quern_lookup(session, &wanted, count_bytes, &bytes);
        now = seconds_now();
        times[runs++] = now - before;
    }
    if (status == QUERN_FAILED || bytes == 0)
        return fprintf(stderr, "%s\n", quern_failure(session)), 2;
    qsort(times, runs, sizeof *times, compare_times);
    printf("%.1f %.4f\n", (double)runs / (now - start), times[runs / 2] * 1e3);
    quern_close(session);
    return 0;
}
