/* Options of the command line. Long names only come whole; `--name VALUE` and `--name=VALUE` are both read. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "command/command.h"

void complain(const char *format, ...)
{
    struct buffer words, visible;
    va_list arguments;
    buffer_open(&words, allocator_standard());
    buffer_open(&visible, allocator_standard());
    va_start(arguments, format);
    buffer_print_list(&words, format, arguments);
    va_end(arguments);
    buffer_add_visible(&visible, (struct text){ words.bytes, (uint32_t)words.length });
    if (words.failed || visible.failed)             /* the reason itself is most likely this one */
        fputs("quern: out of memory\n", stderr);
    else
        fprintf(stderr, "%.*s\n", (int)visible.length, visible.length ? visible.bytes : "");
    buffer_close(&visible);
    buffer_close(&words);
}

struct option {
    const char *name;
    size_t offset;
};

static const struct option valued[] = {
    { "as", offsetof(struct options, as) },
    { "recipe", offsetof(struct options, recipe) },   { "out", offsetof(struct options, out) },
    { "library", offsetof(struct options, library) }, { "colour", offsetof(struct options, colour) },
    { "show", offsetof(struct options, show) },       { "group", offsetof(struct options, group) },
    { "lowest", offsetof(struct options, lowest) },   { "highest", offsetof(struct options, highest) },
    { "limit", offsetof(struct options, limit) },     { "kitchen", offsetof(struct options, kitchen) },
    { "form", offsetof(struct options, form) },       { "map", offsetof(struct options, map) },
    { "source", offsetof(struct options, source) },   { "prefix", offsetof(struct options, prefix) },
    { "today", offsetof(struct options, today) },
    { "since", offsetof(struct options, since) },     { "nutrient", offsetof(struct options, nutrient) },
    { "day", offsetof(struct options, day) },
    { "for", offsetof(struct options, audience) },    { "servings", offsetof(struct options, servings) },
};

/* Whether the command knows the option; `takes_value` tells of which sort. */
static bool is_known(const char *known, const char *name, size_t length, bool *takes_value)
{
    for (const char *at = known; *at;) {
        size_t size = strcspn(at, " ");
        *takes_value = size > 0 && at[size - 1] == '=';
        size_t word = size - (*takes_value ? 1 : 0);
        if (word == length && strncmp(at, name, length) == 0)
            return true;
        at += size + (at[size] == ' ');
    }
    return false;
}

static bool set_jobs(struct options *options, const char *value)
{
    char *end;
    unsigned long jobs = strtoul(value, &end, 10);
    if (*value < '0' || *value > '9' || *end || jobs < 1 || jobs > 64) {
        complain("quern: --jobs takes a number from 1 to 64, not `%s`", value);
        return false;
    }
    options->jobs = (unsigned)jobs;
    return true;
}

/* `10%`: digits, perhaps with a point, and the sign, without which 10 could be read as a tenth or as tenfold. */
static bool set_spoon_error(struct options *options, const char *value)
{
    char *end;
    double percent = strtod(value, &end);
    bool plain = strspn(value, "0123456789.") + 1 == strlen(value) && *value != '.' && end > value && strcmp(end, "%") == 0;
    if (!plain || percent > LIMIT_SPOON_ERROR * 100) {
        complain("quern: --spoon-error takes a share from 0%% to 50%%, such as 10%%, not `%s`", value);
        return false;
    }
    options->spoon_error = percent / 100;
    return true;
}

static bool add_allowed(struct options *options, const char *value)
{
    if (options->allowed_count == LIMIT_ALLOWED_FOLDERS) {
        complain("quern: --allow is taken %d times at most", LIMIT_ALLOWED_FOLDERS);
        return false;
    }
    options->allowed[options->allowed_count++] = value;
    return true;
}

static bool set_value(struct options *options, const char *name, size_t length, const char *value)
{
    if (length == 4 && strncmp(name, "jobs", 4) == 0)
        return set_jobs(options, value);
    if (length == 5 && strncmp(name, "allow", 5) == 0)
        return add_allowed(options, value);
    if (length == 11 && strncmp(name, "spoon-error", 11) == 0)
        return set_spoon_error(options, value);
    for (size_t i = 0; i < sizeof valued / sizeof *valued; i++) {
        if (strlen(valued[i].name) == length && strncmp(valued[i].name, name, length) == 0)
            memcpy((char *)options + valued[i].offset, &value, sizeof value);
    }
    return true;
}

static void set_switch(struct options *options, const char *name)
{
    options->follow_links = options->follow_links || strcmp(name, "follow-links") == 0;
    options->strict = options->strict || strcmp(name, "strict") == 0;
    options->variation = options->variation || strcmp(name, "variation") == 0;
    options->claims = options->claims || strcmp(name, "claims") == 0;
    options->lines = options->lines || strcmp(name, "lines") == 0;
    options->panel = options->panel || strcmp(name, "panel") == 0;
    options->dated = options->dated || strcmp(name, "dated") == 0;
    options->skip_bad = options->skip_bad || strcmp(name, "skip-bad") == 0;
    options->record = options->record || strcmp(name, "record") == 0;
    options->help = options->help || strcmp(name, "help") == 0;
}

/* One `--option`; `next` is the argument behind it. Returns how many arguments it took, 0 after a message. */
static int read_option(struct options *options, const char *command, const char *known, const char *argument,
                       const char *next)
{
    const char *name = argument + 2, *equals = strchr(name, '=');
    size_t length = equals ? (size_t)(equals - name) : strlen(name);
    bool takes_value;
    if (!is_known(known, name, length, &takes_value) && strcmp(name, "help") != 0) {
        if (length == 6 && strncmp(name, "format", 6) == 0 && is_known(known, "as", 2, &takes_value)) {
            complain("quern %s: `--format` is called `--as` now", command);
            return 0;
        }
        complain("quern %s: no option is called `--%.*s`", command, (int)length, name);
        complain("`quern %s --help` lists its options", command);
        return 0;
    }
    if (strcmp(name, "help") == 0 || !takes_value) {
        set_switch(options, name);
        return 1;
    }
    if (!equals && !next) {
        complain("quern %s: `--%s` needs a value", command, name);
        return 0;
    }
    if (!set_value(options, name, length, equals ? equals + 1 : next))
        return 0;
    return equals ? 1 : 2;
}

bool options_read(struct options *options, const char *command, const char *known, int count, char **arguments)
{
    bool only_paths = false;
    *options = (struct options){ .paths = (const char *const *)arguments, .jobs = 1 };
    for (int i = 0; i < count;) {
        char *argument = arguments[i];
        if (only_paths || argument[0] != '-' || argument[1] == '\0') {
            arguments[options->path_count++] = argument;
            i++;
        } else if (strcmp(argument, "--") == 0) {
            only_paths = true;
            i++;
        } else if (strcmp(argument, "-h") == 0) {
            options->help = true;
            i++;
        } else if (argument[1] != '-') {
            complain("quern %s: no option is called `%s`", command, argument);
            complain("`quern %s --help` lists its options", command);
            return false;
        } else {
            int taken = read_option(options, command, known, argument, i + 1 < count ? arguments[i + 1] : NULL);
            if (taken == 0)
                return false;
            i += taken;
        }
    }
    return true;
}

bool options_form(const struct options *options, const char *command, const char *known, enum quern_form *form)
{
    static const char *const names[] = { "text", "json", "csv", "html", "markdown", "jsonld" };
    bool takes_value;
    *form = QUERN_AS_TEXT;
    if (!options->as)
        return true;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (strcmp(names[i], options->as) == 0 && is_known(known, names[i], strlen(names[i]), &takes_value)) {
            *form = (enum quern_form)i;
            return true;
        }
    }
    complain("quern %s: `%s` is no form; these are: %s", command, options->as, known);
    return false;
}

bool options_limit(const struct options *options, const char *command, size_t *limit)
{
    char *end;
    if (!options->limit)
        return true;
    errno = 0;
    unsigned long number = strtoul(options->limit, &end, 10);
    bool good = *options->limit >= '0' && *options->limit <= '9' && !*end && errno == 0 && number >= 1 && number <= 1000000;
    *limit = number;
    if (!good)
        complain("quern %s: --limit takes a number from 1 to 1000000, not `%s`", command, options->limit);
    return good;
}

bool options_servings(const struct options *options, const char *command, double *servings)
{
    const char *written = options->servings;
    char *end = NULL;
    *servings = written ? strtod(written, &end) : 0;
    bool good = !written || (strspn(written, "0123456789.") == strlen(written) && end > written && !*end && *servings > 0 && *servings <= 100000);
    if (!good)
        complain("quern %s: --servings takes a number of servings above 0 and up to 100000, such as 24, not `%s`", command, written);
    return good;
}

/* Colour only on a terminal, and never where NO_COLOR is set. */
static bool use_colour(const struct options *options)
{
    const char *no_colour = getenv("NO_COLOR"), *terminal = getenv("TERM");
    if (options->colour && strcmp(options->colour, "always") == 0)
        return true;
    if ((options->colour && strcmp(options->colour, "never") == 0) || (no_colour && *no_colour))
        return false;
    return isatty(STDOUT_FILENO) && !(terminal && strcmp(terminal, "dumb") == 0);
}

/* The day of the option, of SOURCE_DATE_EPOCH (so that a build gives the same output tomorrow), or of the clock; NULL
 * when none of them tells it. */
static const char *today(const struct options *options, char *storage, size_t size)
{
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    char *end = NULL;
    long long seconds = epoch ? strtoll(epoch, &end, 10) : (long long)time(NULL);
    bool good = seconds >= 86400 && seconds / 86400 < 2900000 && (!epoch || (*epoch >= '0' && *epoch <= '9' && *end == '\0'));
    if (options->today)
        return options->today;
    return good ? day_print((uint32_t)(seconds / 86400), storage, size).bytes : NULL;
}

static bool today_is_good(const struct options *options)
{
    if (!options->today || day_of(text_of(options->today)))
        return true;
    complain("quern: --today takes a day of the calendar such as 2026-02-01, not `%s`", options->today);
    return false;
}

struct quern_session *options_session(const struct options *options)
{
    char date[16];
    if (!today_is_good(options))
        return NULL;
    const char *day = today(options, date, sizeof date);
    if (options->dated && !day) {
        complain("quern: --dated knows no day: SOURCE_DATE_EPOCH holds no seconds since 1970; mend it, or name the day with --today");
        return NULL;
    }
    struct quern_options chosen = { .library_path = options->library, .jobs = options->jobs, .strict = options->strict,
                                    .colour = use_colour(options), .variation = options->variation,
                                    .claims = options->claims, .lines = options->lines, .dated = options->dated, .panel = options->panel,
                                    .progress = options->progress ? progress_tell : NULL, .progress_context = options->progress,
                                    .spoon_error = options->spoon_error, .today = day,
                                    .follow_links = options->follow_links, .allowed = options->allowed, .allowed_count = options->allowed_count };
    struct quern_session *session = quern_open(&chosen);
    if (!session)
        complain("quern: out of memory");
    return session;
}

int command_print(const char *text)
{
    bool failed = fputs(text, stdout) < 0;
    if (fflush(stdout) == 0 && !failed)
        return QUERN_OK;
    complain("quern: the output cannot be written: %s", strerror(errno));
    return QUERN_FAILED;
}

bool write_standard(void *context, const char *bytes, size_t length)
{
    (void)context;
    while (length > 0) {
        ssize_t count = write(STDOUT_FILENO, bytes, length);
        if (count < 0 && errno == EINTR)
            continue;
        if (count < 0)
            return false;
        bytes += count;
        length -= (size_t)count;
    }
    return true;
}

int command_status(const struct quern_session *session, enum quern_status status)
{
    if (status == QUERN_FAILED)
        complain("quern: %s", quern_failure(session));
    return (int)status;
}
