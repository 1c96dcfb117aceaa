/* Git is asked in four steps: whether there is a repository, which commit is meant, which files lie in it, what they
 * hold. Only files of ours are taken, and only to places inside the scratch folder. */
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>

#include "model/revision.h"

#define WORDS_OF_GIT ((size_t)4096)             /* of a message */
#define LISTING_BYTES ((size_t)256 << 20)       /* of the list of files in a commit */

struct asking {
    struct revision *revision;
    struct arena *arena;
    const char *place;                          /* the kitchen's folder */
    const char *only;                           /* the name of a file on its own, or NULL */
    const char *name;
    const char *in, *out, *err;                 /* files in the scratch folder */
    const char *environment[12];                /* of git, and then NULL */
};

QUERN_PRINTF(3, 4)
static enum status fail(struct asking *asking, enum status status, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(asking->revision->failure, sizeof asking->revision->failure, format, arguments);
    va_end(arguments);
    return length < 0 ? STATUS_IO : status;
}

/* The first line of what git said. */
static const char *words_of_git(struct asking *asking)
{
    struct buffer buffer;
    char *words = NULL;
    buffer_open(&buffer, asking->arena->allocator);
    if (file_read(AT_FDCWD, asking->err, WORDS_OF_GIT, &buffer) == STATUS_OK)
        words = arena_copy(asking->arena, buffer.bytes, strcspn(buffer.bytes, "\n"));
    buffer_close(&buffer);
    return words && *words ? words : "nothing";
}

/* What git gets of the environment: the user's own settings are found (a checkout of another user needs `safe.directory`), and no
 * way to another program or to a network is open, whatever the repository says. */
static bool set_environment(struct asking *asking)
{
    static const char *const kept[] = { "PATH", "HOME", "XDG_CONFIG_HOME" };
    static const char *const said[] = { "GIT_ALLOW_PROTOCOL=none", "GIT_NO_LAZY_FETCH=1", "GIT_CONFIG_NOSYSTEM=1", "GIT_TERMINAL_PROMPT=0", "LC_ALL=C" };
    uint32_t count = 0;
    for (uint32_t i = 0; i < COUNT_OF(kept); i++) {
        const char *value = getenv(kept[i]);
        if (value)
            asking->environment[count++] = arena_print(asking->arena, "%s=%s", kept[i], value);
    }
    for (uint32_t i = 0; i < COUNT_OF(said); i++)
        asking->environment[count++] = said[i];
    return !asking->arena->failed;
}

/* `git -C place …`, and only what reads objects as they are: no filter, no conversion, no hook. A folder of the kitchen that is a
 * repository itself, without a `.git`, is no repository here: its settings would be those of whoever sent it. */
static enum status ask(struct asking *asking, const char *const *words, const char *in, int *result)
{
    const char *arguments[28] = { "git", "-C", asking->place, "-c", "protocol.allow=never", "-c", "protocol.ext.allow=never",
                                  "-c", "safe.bareRepository=explicit", "-c", "core.fsmonitor=false", "-c", "core.hooksPath=/dev/null",
                                  "--no-pager", "--no-replace-objects" };
    uint32_t count = 15;
    while (*words && count < COUNT_OF(arguments) - 1)
        arguments[count++] = *words++;
    enum status status = process_run(arguments, asking->environment, in, asking->out, asking->err, result);
    if (status == STATUS_IO)
        return errno == ENOENT ? fail(asking, STATUS_IO, "git is not installed, and --since reads what it keeps")
                               : fail(asking, STATUS_IO, "git cannot be started: %s", strerror(errno));
    return status;
}

/* ---- the commit ---------------------------------------------------------------------------------------------------- */

static enum status find_repository(struct asking *asking)
{
    static const char *const words[] = { "rev-parse", "--git-dir", NULL };
    int result;
    enum status status = ask(asking, words, NULL, &result);
    if (status != STATUS_OK || result == 0)
        return status;
    return fail(asking, STATUS_USAGE, "--since needs a git repository around the kitchen; git says: %.300s", words_of_git(asking));
}

static enum status find_commit(struct asking *asking, const char **commit)
{
    struct buffer buffer;
    int result = 0;
    char *wanted = arena_print(asking->arena, "%s^{commit}", asking->name);
    const char *const words[] = { "rev-parse", "--verify", "--quiet", wanted, NULL };
    if (!wanted)
        return STATUS_NO_MEMORY;
    if (asking->name[0] == '-' || asking->name[0] == '\0')
        return fail(asking, STATUS_USAGE, "\"%.200s\" is no revision; write a commit, a branch or a tag, such as HEAD~1", asking->name);
    enum status status = ask(asking, words, NULL, &result);
    if (status != STATUS_OK)
        return status;
    buffer_open(&buffer, asking->arena->allocator);
    if (result == 0)
        status = file_read(AT_FDCWD, asking->out, WORDS_OF_GIT, &buffer);
    size_t length = result == 0 && status == STATUS_OK ? strspn(buffer.bytes, "0123456789abcdef") : 0;
    *commit = length >= 40 ? arena_copy(asking->arena, buffer.bytes, length) : NULL;
    buffer_close(&buffer);
    if (*commit || status == STATUS_NO_MEMORY || asking->arena->failed)
        return *commit ? STATUS_OK : STATUS_NO_MEMORY;
    return fail(asking, STATUS_USAGE, "git knows no revision \"%.200s\"; `git log --oneline` lists those there are", asking->name);
}

/* ---- its files ------------------------------------------------------------------------------------------------------- */

static bool ends_in(const char *path, const char *ending)
{
    size_t length = strlen(path), size = strlen(ending);
    return length > size && strcmp(path + length - size, ending) == 0;
}

/* No part of the path leads out of the folder. */
static bool is_safe(const char *path)
{
    for (const char *at = path;; at++) {
        size_t length = strcspn(at, "/");
        if (length == 0 || (length == 1 && at[0] == '.') || (length == 2 && at[0] == '.' && at[1] == '.'))
            return false;
        at += length;
        if (!*at)
            return true;
    }
}

static bool is_wanted(const struct asking *asking, const char *entry, const char *path)
{
    if (strncmp(entry, "100", 3) != 0 || !is_safe(path))            /* neither links nor repositories within */
        return false;
    return asking->only ? strcmp(path, asking->only) == 0 : ends_in(path, ".quern") || ends_in(path, ".pack");
}

struct wanted_file {
    struct wanted_file *next;
    const char *path, *object;
};

/* `mode type object<TAB>path<NUL>`, again and again. */
static enum status list_files(struct asking *asking, const char *commit, struct wanted_file **first)
{
    const char *const words[] = { "ls-tree", "-r", "-z", commit, NULL };
    struct buffer buffer;
    int result;
    struct wanted_file **end = first;
    enum status status = ask(asking, words, NULL, &result);
    if (status == STATUS_OK && result != 0)
        return fail(asking, STATUS_IO, "git cannot list the files of the revision; it says: %.300s", words_of_git(asking));
    buffer_open(&buffer, asking->arena->allocator);
    if (status == STATUS_OK)
        status = file_read(AT_FDCWD, asking->out, LISTING_BYTES, &buffer);
    for (size_t at = 0; status == STATUS_OK && at < buffer.length; at += strlen(buffer.bytes + at) + 1) {
        char *entry = buffer.bytes + at, *tab = strchr(entry, '\t'), *object = tab && tab - entry > 12 ? entry + 12 : NULL;
        if (!object || strncmp(entry + 6, " blob ", 6) != 0 || !is_wanted(asking, entry, tab + 1))
            continue;
        struct wanted_file *file = arena_take(asking->arena, sizeof *file);
        if (!file)
            break;
        file->path = arena_copy(asking->arena, tab + 1, strlen(tab + 1));
        file->object = arena_copy(asking->arena, object, (size_t)(tab - object));
        *end = file;
        end = &file->next;
    }
    buffer_close(&buffer);
    return asking->arena->failed ? STATUS_NO_MEMORY : status;
}

static enum status write_request(struct asking *asking, const struct wanted_file *files)
{
    FILE *stream = fopen(asking->in, "w");
    if (!stream)
        return fail(asking, STATUS_IO, "no file can be written for a moment: %s", strerror(errno));
    for (; files; files = files->next)
        fprintf(stream, "%s\n", files->object);
    bool failed = ferror(stream);
    failed = fclose(stream) != 0 || failed;
    return failed ? fail(asking, STATUS_IO, "no file can be written for a moment: %s", strerror(errno)) : STATUS_OK;
}

static enum status write_file(struct asking *asking, const char *path, const char *bytes, size_t length)
{
    char *whole = arena_print(asking->arena, "%s/at/%s", asking->revision->scratch, path);
    if (!whole)
        return STATUS_NO_MEMORY;
    FILE *stream = folders_make(whole) ? fopen(whole, "wb") : NULL;
    bool failed = !stream || fwrite(bytes, 1, length, stream) != length;
    failed = (stream && fclose(stream) != 0) || failed;
    return failed ? fail(asking, STATUS_IO, "no file can be written for a moment: %s", strerror(errno)) : STATUS_OK;
}

/* `object blob size<LF>bytes<LF>`, in the order of the request. */
static enum status part_files(struct asking *asking, const char *bytes, size_t size, const struct wanted_file *files)
{
    enum status status = STATUS_OK;
    for (size_t at = 0; files && status == STATUS_OK; files = files->next) {
        const char *feed = at < size ? memchr(bytes + at, '\n', size - at) : NULL, *kind = feed;
        while (kind && kind > bytes + at && kind[-1] != ' ')
            kind--;
        size_t length = kind ? (size_t)strtoull(kind, NULL, 10) : 0, start = feed ? (size_t)(feed - bytes) + 1 : size;
        if (!feed || kind == bytes + at || length >= size - start)
            return fail(asking, STATUS_IO, "git does not give the file %.200s of the revision", files->path);
        status = write_file(asking, files->path, bytes + start, length);
        at = start + length + 1;
    }
    return status;
}

static enum status fetch_files(struct asking *asking, const struct wanted_file *files)
{
    static const char *const words[] = { "cat-file", "--batch", NULL };
    struct mapped_file mapped;
    int result;
    enum status status = write_request(asking, files);
    if (status == STATUS_OK)
        status = ask(asking, words, asking->in, &result);
    if (status != STATUS_OK)
        return status;
    if (result != 0 || file_map(asking->out, LIMIT_PACK_BYTES, &mapped) != STATUS_OK)
        return fail(asking, STATUS_IO, "git cannot read the files of the revision; it says: %.300s", words_of_git(asking));
    status = part_files(asking, mapped.bytes, mapped.size, files);
    file_unmap(&mapped);
    return status;
}

/* ---- all of it --------------------------------------------------------------------------------------------------------- */

/* The folder of a kitchen, or of a file on its own. */
static bool set_place(struct asking *asking, const struct planned_kitchen *planned)
{
    const char *path = planned->root ? planned->root : planned->files_count ? planned->files[0].path : ".";
    const char *slash = strrchr(path, '/');
    asking->place = planned->root ? planned->root : slash ? arena_copy(asking->arena, path, (size_t)(slash - path) + 1) : ".";
    asking->only = planned->root ? NULL : slash ? slash + 1 : path;
    return asking->place != NULL;
}

static bool set_scratch(struct asking *asking)
{
    struct revision *revision = asking->revision;
    revision->scratch = scratch_make(asking->arena);
    if (!revision->scratch)
        return false;
    asking->in = arena_print(asking->arena, "%s/in", revision->scratch);
    asking->out = arena_print(asking->arena, "%s/out", revision->scratch);
    asking->err = arena_print(asking->arena, "%s/err", revision->scratch);
    revision->path = arena_print(asking->arena, "%s/at%s%s", revision->scratch, asking->only ? "/" : "", asking->only ? asking->only : "");
    revision->strip = strlen(revision->scratch) + 4;
    return !asking->arena->failed;
}

enum status revision_fetch(struct revision *revision, const struct planned_kitchen *planned, const char *name, struct arena *arena)
{
    struct asking asking = { .revision = revision, .arena = arena, .name = name };
    struct wanted_file *files = NULL;
    const char *commit = NULL;
    *revision = (struct revision){ .scratch = NULL };
    if (!set_place(&asking, planned) || !set_environment(&asking))
        return STATUS_NO_MEMORY;
    if (!set_scratch(&asking))
        return arena->failed ? STATUS_NO_MEMORY : fail(&asking, STATUS_IO, "no folder can be made for a moment: %s", strerror(errno));
    enum status status = find_repository(&asking);
    if (status == STATUS_OK)
        status = find_commit(&asking, &commit);
    if (status == STATUS_OK)
        status = list_files(&asking, commit, &files);
    if (status == STATUS_OK && !files)
        status = fail(&asking, STATUS_USAGE, "nothing of this kitchen was there yet at %.200s", name);
    return status == STATUS_OK ? fetch_files(&asking, files) : status;
}

void revision_remove(struct revision *revision, struct allocator allocator)
{
    if (revision->scratch)
        scratch_remove(revision->scratch, allocator);
}
