/* Files and folders that are soon forgotten, and those that a killed process could not take away. */
#include <dirent.h>
#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/base.h"

#define MARK ".quern-"

/* The mark with what stands for this machine: numbers of processes mean something on one only. */
static void print_mark(char *storage)
{
    char host[256] = "";
    if (gethostname(host, sizeof host - 1) != 0)
        host[0] = '\0';
    snprintf(storage, TEMPORARY_BYTES, MARK "%08x-", (unsigned)(hash_bytes(host, strlen(host)) & 0xffffffffu));
}

void temporary_name(char *storage)
{
    print_mark(storage);
    size_t length = strlen(storage);
    snprintf(storage + length, TEMPORARY_BYTES - length, "%ld-XXXXXX", (long)getpid());
}

char *scratch_make(struct arena *arena)
{
    const char *told = getenv("TMPDIR"), *place = told && *told ? told : "/tmp";
    char name[TEMPORARY_BYTES];
    temporary_name(name);
    temporaries_clear(place, arena->allocator);
    char *path = arena_print(arena, "%s/%s", place, name);
    return path && mkdtemp(path) ? path : NULL;
}

bool folders_make(char *path)
{
    bool made = true;
    for (char *slash = strchr(path + 1, '/'); slash && made; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        made = mkdir(path, 0700) == 0 || errno == EEXIST;
        *slash = '/';
    }
    return made;
}

/* Links are taken away and not followed. */
static void remove_below(const char *path, int depth, struct allocator allocator)
{
    DIR *folder = depth > 2 * LIMIT_FOLDERS ? NULL : opendir(path);
    struct buffer name;
    buffer_open(&name, allocator);
    for (struct dirent *entry; folder && (entry = readdir(folder)) != NULL; name.length = 0) {
        struct stat facts;
        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0)
            continue;
        buffer_print(&name, "%s/%s", path, entry->d_name);
        if (name.failed || lstat(name.bytes, &facts) != 0)
            continue;
        if (S_ISDIR(facts.st_mode))
            remove_below(name.bytes, depth + 1, allocator);
        else
            unlink(name.bytes);
    }
    if (folder)
        closedir(folder);
    buffer_close(&name);
    rmdir(path);
}

void scratch_remove(const char *path, struct allocator allocator)
{
    remove_below(path, 0, allocator);
}

/* ---- what others left */

/* Whether the name is of a process of this machine that is no more. */
static bool is_forsaken(const char *name, const char *mark)
{
    char *end;
    size_t length = strlen(mark);
    if (strncmp(name, mark, length) != 0)
        return false;
    long process = strtol(name + length, &end, 10);
    return process > 0 && *end == '-' && strlen(end) == sizeof "-XXXXXX" - 1 && kill((pid_t)process, 0) != 0 && errno == ESRCH;
}

void temporaries_clear(const char *folder, struct allocator allocator)
{
    char mark[TEMPORARY_BYTES];
    DIR *stream = opendir(folder);
    struct buffer name;
    print_mark(mark);
    buffer_open(&name, allocator);
    for (struct dirent *entry; stream && (entry = readdir(stream)) != NULL; name.length = 0) {
        struct stat facts;
        if (!is_forsaken(entry->d_name, mark))
            continue;
        buffer_print(&name, "%s/%s", folder, entry->d_name);
        if (name.failed || lstat(name.bytes, &facts) != 0 || facts.st_uid != geteuid())
            continue;
        if (S_ISDIR(facts.st_mode))
            remove_below(name.bytes, 0, allocator);
        else
            unlink(name.bytes);
    }
    if (stream)
        closedir(stream);
    buffer_close(&name);
}

void temporaries_clear_beside(const char *path, struct allocator allocator)
{
    const char *slash = strrchr(path, '/');
    struct buffer folder;
    buffer_open(&folder, allocator);
    buffer_add(&folder, slash ? path : ".", slash ? (size_t)(slash - path + 1) : 1);
    buffer_add(&folder, "", 1);
    if (!folder.failed)
        temporaries_clear(folder.bytes, allocator);
    buffer_close(&folder);
}
