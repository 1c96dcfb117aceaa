/* Folders for files that are soon forgotten. */
#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/base.h"

char *scratch_make(struct arena *arena)
{
    const char *place = getenv("TMPDIR");
    char *path = arena_print(arena, "%s/quern-XXXXXX", place && *place ? place : "/tmp");
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
