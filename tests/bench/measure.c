/* measure: runs one program and says what it cost.
 *
 *     measure OUTPUT PROGRAM ARGUMENT...    ->  wall seconds, CPU seconds, peak KiB, minor faults, exit status
 *
 * The kernel counts the memory of whoever starts a program, up to its exec, as the program's own: started from
 * Python, nothing seems to need less than 10 MiB. Hence this small starter. Output goes to a file and not to
 * /dev/null, because grep stops at the first match when it sees /dev/null. */

#define _DEFAULT_SOURCE
#include <fcntl.h>
#include <spawn.h>
#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

extern char **environ;

static double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static double seconds_of(struct timeval time)
{
    return (double)time.tv_sec + (double)time.tv_usec * 1e-6;
}

static int run(int output, char **command, int *status, struct rusage *usage)
{
    posix_spawn_file_actions_t actions;
    pid_t child;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, output, STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(&actions, output, STDERR_FILENO);
    if (posix_spawnp(&child, command[0], &actions, NULL, command, environ))
        return -1;
    return wait4(child, status, 0, usage) == child ? 0 : -1;
}

int main(int argc, char **argv)
{
    struct rusage usage;
    int status, output = argc > 2 ? open(argv[1], O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666) : -1;
    double start = seconds_now();
    if (output < 0 || run(output, argv + 2, &status, &usage))
        return perror("measure"), 2;
    double wall_seconds = seconds_now() - start;
    printf("%.9f %.6f %ld %ld %d\n", wall_seconds, seconds_of(usage.ru_utime) + seconds_of(usage.ru_stime),
           usage.ru_maxrss, usage.ru_minflt, WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status));
    return 0;
}
