/* Other programs, run without a shell: what an argument says is never read as a command. */
#include <errno.h>
#include <fcntl.h>
#include <spawn.h>
#include <string.h>
#include <sys/wait.h>

#include "base/base.h"

extern char **environ;

/* The environment without some of its variables; NULL when memory failed. */
static char **environment_without(struct arena *arena, const char *prefix)
{
    size_t count = 0, kept = 0, length = strlen(prefix);
    while (environ[count])
        count++;
    char **copy = arena_take(arena, (count + 1) * sizeof *copy);
    for (size_t i = 0; copy && i < count; i++) {
        if (strncmp(environ[i], prefix, length) != 0)
            copy[kept++] = environ[i];
    }
    return copy;                        /* the rest of it is NULL */
}

static int direct(posix_spawn_file_actions_t *actions, const char *in, const char *out, const char *err)
{
    int failed = posix_spawn_file_actions_addopen(actions, 0, in ? in : "/dev/null", O_RDONLY, 0);
    if (!failed)
        failed = posix_spawn_file_actions_addopen(actions, 1, out, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    if (!failed)
        failed = posix_spawn_file_actions_addopen(actions, 2, err, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    return failed;
}

static enum status wait_for(pid_t child, int *result)
{
    int ended;
    while (waitpid(child, &ended, 0) < 0) {
        if (errno != EINTR)
            return STATUS_IO;
    }
    *result = WIFEXITED(ended) ? WEXITSTATUS(ended) : 255;
    return STATUS_OK;
}

enum status process_run(struct arena *arena, const char *const *arguments, const char *in, const char *out, const char *err,
                        const char *without, int *result)
{
    posix_spawn_file_actions_t actions;
    pid_t child;
    char **environment = environment_without(arena, without);
    int failed = environment ? posix_spawn_file_actions_init(&actions) : ENOMEM;
    if (failed)
        return STATUS_NO_MEMORY;
    failed = direct(&actions, in, out, err);
    if (!failed)                        /* the arguments are only read: spawning takes them as main does */
        failed = posix_spawnp(&child, arguments[0], &actions, NULL, (char *const *)(uintptr_t)arguments, environment);
    posix_spawn_file_actions_destroy(&actions);
    errno = failed;
    return failed ? STATUS_IO : wait_for(child, result);
}
