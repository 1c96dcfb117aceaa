/* Other programs, run without a shell: what an argument says is never read as a command. */
#include <errno.h>
#include <fcntl.h>
#include <spawn.h>
#include <string.h>
#include <sys/wait.h>

#include "base/base.h"

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

enum status process_run(const char *const *arguments, const char *const *environment, const char *in, const char *out,
                        const char *err, int *result)
{
    posix_spawn_file_actions_t actions;
    pid_t child;
    if (posix_spawn_file_actions_init(&actions))
        return STATUS_NO_MEMORY;
    int failed = direct(&actions, in, out, err);
    if (!failed)                        /* arguments and environment are only read: spawning takes them as main does */
        failed = posix_spawnp(&child, arguments[0], &actions, NULL, (char *const *)(uintptr_t)arguments, (char *const *)(uintptr_t)environment);
    posix_spawn_file_actions_destroy(&actions);
    errno = failed;
    return failed ? STATUS_IO : wait_for(child, result);
}
