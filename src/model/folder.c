/* Walking folders. A kitchen is the nearest folder upwards that holds a kitchen.quern; a file outside any kitchen
 * is a kitchen of one. Entries are sorted folder by folder, so that the order of the whole is by path. */
#define _DEFAULT_SOURCE                 /* d_type: one call a folder instead of one a file */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "model/folder.h"

#define KITCHEN_FILE "kitchen.quern"
#define ENDING ".quern"

void plan_open(struct plan *plan, struct allocator allocator)
{
    *plan = (struct plan){ 0 };
    arena_open(&plan->arena, allocator);
}

void plan_close(struct plan *plan)
{
    struct allocator *allocator = &plan->arena.allocator;
    for (uint32_t i = 0; i < plan->kitchens_count; i++)
        allocator->resize(allocator->context, plan->kitchens[i].files, 0);
    allocator->resize(allocator->context, plan->kitchens, 0);
    arena_close(&plan->arena);
}

/* ---- adding -------------------------------------------------------------------------------------------------- */

static uint32_t add_kitchen(struct plan *plan, const char *root)
{
    if (!array_grow(&plan->arena.allocator, &plan->kitchens, plan->kitchens_count, &plan->kitchens_capacity,
                    sizeof *plan->kitchens)) {
        plan->no_memory = true;
        return UINT32_MAX;
    }
    plan->kitchens[plan->kitchens_count] = (struct planned_kitchen){ .root = root };
    return plan->kitchens_count++;
}

static void add_file(struct plan *plan, uint32_t number, const char *path, bool requested, bool is_kitchen)
{
    if (number == UINT32_MAX || !path) {
        plan->no_memory = true;
        return;
    }
    struct planned_kitchen *kitchen = &plan->kitchens[number];
    if (!array_grow(&plan->arena.allocator, &kitchen->files, kitchen->files_count, &kitchen->files_capacity,
                    sizeof *kitchen->files)) {
        plan->no_memory = true;
        return;
    }
    kitchen->files[kitchen->files_count++] = (struct planned_file){ .path = path, .requested = requested, .is_kitchen = is_kitchen };
}

/* The path of what stands in a folder. Made by hand, since a large kitchen has a hundred thousand of them. */
static const char *join(struct plan *plan, const char *folder, const char *name)
{
    size_t before = strcmp(folder, ".") == 0 ? 0 : strlen(folder), length = strlen(name);
    bool slash = strcmp(folder, ".") != 0 && !(before && folder[before - 1] == '/');
    char *path = arena_take(&plan->arena, before + slash + length + 1);
    if (!path)
        return NULL;
    memcpy(path, folder, before);
    if (slash)
        path[before] = '/';
    memcpy(path + before + slash, name, length);
    return path;
}

/* ---- one folder -------------------------------------------------------------------------------------------------- */

struct entry {
    const char *path, *name;        /* the name ends the path */
    bool is_folder;
};

struct listing {
    struct entry *entries;
    uint32_t count, capacity;
    bool has_kitchen_file;
};

static int compare_entries(const void *a, const void *b)
{
    return strcmp(((const struct entry *)a)->name, ((const struct entry *)b)->name);
}

static bool ends_in_quern(const char *name)
{
    size_t length = strlen(name), ending = sizeof ENDING - 1;
    return length > ending && strcmp(name + length - ending, ENDING) == 0;
}

/* 'd' for a folder, 'f' for a file that counts, 0 for all else; 'e' where it cannot be told, and errno says why. */
static char kind_of(const struct dirent *found, int folder)
{
    struct stat facts;
    unsigned char type = found->d_type;
    if (found->d_name[0] == '.')
        return 0;
    if (type == DT_UNKNOWN) {
        if (fstatat(folder, found->d_name, &facts, AT_SYMLINK_NOFOLLOW) != 0)
            return errno == ENOENT ? 0 : 'e';
        type = S_ISDIR(facts.st_mode) ? DT_DIR : S_ISREG(facts.st_mode) ? DT_REG : DT_LNK;
    }
    return type == DT_DIR ? 'd' : type == DT_REG && ends_in_quern(found->d_name) ? 'f' : 0;
}

static void add_entry(struct plan *plan, struct listing *listing, const char *folder, const char *name, bool is_folder)
{
    const char *path = join(plan, folder, name);
    if (!path || !array_grow(&plan->arena.allocator, &listing->entries, listing->count, &listing->capacity,
                             sizeof *listing->entries)) {
        plan->no_memory = true;
        return;
    }
    listing->entries[listing->count++] = (struct entry){ path, path + strlen(path) - strlen(name), is_folder };
    listing->has_kitchen_file = listing->has_kitchen_file || (!is_folder && strcmp(name, KITCHEN_FILE) == 0);
}

static bool list_folder(struct plan *plan, const char *path, struct listing *listing)
{
    DIR *folder = opendir(path);
    if (!folder) {
        plan->failed_path = path;
        plan->reason = errno;
        return false;
    }
    char kind = 0;
    for (const struct dirent *found; !plan->no_memory && kind != 'e' && (errno = 0, found = readdir(folder)) != NULL;) {
        kind = kind_of(found, dirfd(folder));
        if (kind == 'd' || kind == 'f')
            add_entry(plan, listing, path, found->d_name, kind == 'd');
    }
    int reason = plan->no_memory ? 0 : errno;
    closedir(folder);
    if (reason) {               /* part of a kitchen is no kitchen */
        plan->failed_path = path;
        plan->reason = reason;
    }
    if (listing->count)
        qsort(listing->entries, listing->count, sizeof *listing->entries, compare_entries);
    return true;
}

/* ---- the walk ---------------------------------------------------------------------------------------------------- */

struct walk {
    struct plan *plan;
    const char *wanted;             /* path below the root whose files are requested; "" for all */
};

static bool is_wanted(const struct walk *walk, const char *below)
{
    size_t length = strlen(walk->wanted);
    return length == 0 || (strncmp(below, walk->wanted, length) == 0 && (below[length] == '\0' || below[length] == '/'));
}

/* `kitchen` is the kitchen around this folder, or UINT32_MAX; `below` is the path below its root, the end of `path`. */
static void walk_folder(struct walk *walk, const char *path, const char *below, uint32_t kitchen, uint32_t depth)
{
    struct plan *plan = walk->plan;
    struct listing listing = { 0 };
    if (depth > LIMIT_FOLDERS && !plan->failed_path) {
        plan->failed_path = path;
        plan->too_deep = true;
    }
    if (depth > LIMIT_FOLDERS || !list_folder(plan, path, &listing))
        return;
    struct walk all = { plan, "" };
    bool skip = false;
    if (listing.has_kitchen_file && (kitchen == UINT32_MAX || *below)) {
        skip = !is_wanted(walk, below);             /* a kitchen inside another is one of its own */
        kitchen = skip ? kitchen : add_kitchen(plan, path);
        walk = &all;
        below = "";
    }
    for (uint32_t i = 0; i < listing.count && !plan->no_memory && !skip; i++) {
        const struct entry *entry = &listing.entries[i];
        const char *inner_below = *below ? entry->name - strlen(below) - 1 : entry->name;
        if (entry->is_folder)
            walk_folder(walk, entry->path, inner_below, kitchen, depth + 1);
        else if (kitchen == UINT32_MAX)
            add_file(plan, add_kitchen(plan, NULL), entry->path, true, strcmp(entry->name, KITCHEN_FILE) == 0);
        else
            add_file(plan, kitchen, entry->path, is_wanted(walk, inner_below),
                     !*below && strcmp(entry->name, KITCHEN_FILE) == 0);
    }
    plan->arena.allocator.resize(plan->arena.allocator.context, listing.entries, 0);
}

/* ---- the kitchen around a path ------------------------------------------------------------------------------------- */

static bool holds_kitchen(struct plan *plan, const char *folder)
{
    struct arena_mark mark = arena_mark(&plan->arena);
    const char *path = join(plan, folder, KITCHEN_FILE);
    bool holds = path && access(path, F_OK) == 0;
    if (path && !holds && errno != ENOENT && errno != ENOTDIR && errno != EACCES && !plan->failed_path) {
        plan->failed_path = folder;
        plan->reason = errno;
    }
    arena_rewind(&plan->arena, mark);
    return holds;
}

/* Cuts the last name off a real path; false at the top. */
static bool go_up(char *path)
{
    char *slash = strrchr(path, '/');
    if (!slash || path[1] == '\0')
        return false;
    slash[slash == path ? 1 : 0] = '\0';
    return true;
}

/* The folder upwards from `real` that holds a kitchen.quern, as a copy; NULL when there is none. */
static char *find_root(struct plan *plan, const char *real)
{
    char *folder = arena_copy(&plan->arena, real, strlen(real));
    for (uint32_t up = 0; folder && up < LIMIT_FOLDERS; up++) {
        if (holds_kitchen(plan, folder))
            return folder;
        if (plan->failed_path || !go_up(folder))
            return NULL;
    }
    return NULL;
}

/* How the root is shown: as the start of the given path where that is possible, else relative to where we are. */
static const char *shown_root(struct plan *plan, const char *path, const char *real, const char *root)
{
    char here[4096];
    size_t root_length = strlen(root), ending = strlen(real) - root_length, length = strlen(path);
    if (length > ending && strcmp(path + length - ending, real + root_length) == 0 && ending > 0)
        return arena_copy(&plan->arena, path, length - ending);
    if (getcwd(here, sizeof here)) {
        size_t here_length = strlen(here);
        if (strcmp(here, root) == 0)
            return ".";
        if (strncmp(root, here, here_length) == 0 && root[here_length] == '/')
            return arena_copy(&plan->arena, root + here_length + 1, root_length - here_length - 1);
    }
    return root;
}

static void request(struct planned_kitchen *kitchen, const char *shown, const char *wanted)
{
    size_t root_length = strcmp(shown, ".") == 0 ? 0 : strlen(shown) + (shown[strlen(shown) - 1] != '/');
    size_t length = strlen(wanted);
    for (uint32_t i = 0; i < kitchen->files_count; i++) {
        const char *below = kitchen->files[i].path + root_length;
        if (length == 0 || (strncmp(below, wanted, length) == 0 && (below[length] == '\0' || below[length] == '/')))
            kitchen->files[i].requested = true;
    }
}

/* A second path into a kitchen that is planned already only asks for more of its files. */
static bool request_again(struct plan *plan, const char *root, const char *wanted)
{
    for (uint32_t i = 0; i < plan->kitchens_count; i++) {
        struct planned_kitchen *kitchen = &plan->kitchens[i];
        if (kitchen->real_root && strcmp(kitchen->real_root, root) == 0) {
            request(kitchen, kitchen->root, wanted);
            return true;
        }
    }
    return false;
}

static void plan_kitchen(struct plan *plan, const char *path, const char *real, char *root)
{
    const char *wanted = real + strlen(root);
    while (*wanted == '/')
        wanted++;
    if (request_again(plan, root, wanted))
        return;
    const char *shown = shown_root(plan, path, real, root);
    uint32_t number = add_kitchen(plan, shown);
    if (!shown || number == UINT32_MAX)
        return;
    plan->kitchens[number].real_root = root;
    walk_folder(&(struct walk){ plan, wanted }, shown, "", number, 0);
}

static uint32_t requested_files(const struct plan *plan)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < plan->kitchens_count; i++) {
        for (uint32_t j = 0; j < plan->kitchens[i].files_count; j++)
            count += plan->kitchens[i].files[j].requested;
    }
    return count;
}

static enum status finish(struct plan *plan, const char *path)
{
    if (plan->no_memory || plan->arena.failed)
        return STATUS_NO_MEMORY;
    if (plan->failed_path)
        return STATUS_IO;
    if (requested_files(plan) > 0)
        return STATUS_OK;
    plan->failed_path = path;
    plan->reason = 0;
    return STATUS_USAGE;
}

static char *real_path(struct plan *plan, const char *path)
{
    char *found = realpath(path, NULL);
    char *kept = found ? arena_copy(&plan->arena, found, strlen(found)) : NULL;
    free(found);
    return kept;
}

static char *folder_of(struct plan *plan, const char *real)
{
    char *folder = arena_copy(&plan->arena, real, strlen(real));
    return folder && go_up(folder) ? folder : NULL;
}

static bool is_within(const char *path, const char *root)
{
    size_t length = strlen(root);
    return strncmp(path, root, length) == 0 && (path[length] == '/' || path[length] == '\0' || (length && root[length - 1] == '/'));
}

enum path_place path_place(const char *path, const char *folder)
{
    char *target = realpath(path, NULL), *root = target ? realpath(folder, NULL) : NULL;
    int reason = target && root ? 0 : errno;
    bool untold = reason && reason != ENOENT && reason != ENOTDIR && reason != ELOOP && reason != ENAMETOOLONG && reason != EACCES;
    enum path_place place = untold ? PATH_UNTOLD : !target ? PATH_MISSING : root && is_within(target, root) ? PATH_WITHIN : PATH_OUTSIDE;
    free(target);
    free(root);
    errno = reason;
    return place;
}

/* Whoever sends a folder chooses the links in it: one with the name of a recipe may lead to any file of this machine, whose lines
 * would then be shown. Each part of the path is looked at. */
static bool leads_out(struct plan *plan, const char *path)
{
    struct stat facts;
    size_t length = strlen(path);
    for (size_t at = 1; at <= length; at++) {
        if ((path[at] != '/' && path[at] != '\0') || path[at - 1] == '/')
            continue;
        char *part = arena_copy(&plan->arena, path, at);
        if (!part)
            return true;                            /* the arena has failed, and so does the plan */
        const char *slash = strrchr(part, '/');
        const char *folder = !slash ? "." : slash == part ? "/" : arena_copy(&plan->arena, part, (size_t)(slash - part));
        if (!folder || (lstat(part, &facts) == 0 && S_ISLNK(facts.st_mode) && path_place(part, folder) >= PATH_OUTSIDE))
            return true;
    }
    return false;
}

static enum status refuse(struct plan *plan, const char *path, bool is_folder)
{
    uint32_t number = is_folder ? UINT32_MAX : add_kitchen(plan, NULL);
    if (is_folder) {
        plan->failed_path = path;
        plan->is_refused = true;
        return plan->arena.failed ? STATUS_NO_MEMORY : STATUS_IO;
    }
    add_file(plan, number, path, true, false);
    if (plan->no_memory || plan->arena.failed)
        return STATUS_NO_MEMORY;
    plan->kitchens[number].files[0].is_refused = true;
    return STATUS_OK;
}

enum status plan_add(struct plan *plan, const char *path)
{
    struct stat facts;
    if (strcmp(path, "-") == 0) {
        add_file(plan, add_kitchen(plan, NULL), "-", true, false);
        return plan->no_memory ? STATUS_NO_MEMORY : STATUS_OK;
    }
    if (!plan->follow_links && stat(path, &facts) == 0 && leads_out(plan, path))
        return refuse(plan, path, S_ISDIR(facts.st_mode));
    char *real = stat(path, &facts) == 0 ? real_path(plan, path) : NULL;
    if (!real) {
        plan->failed_path = path;
        plan->reason = errno;
        return STATUS_IO;
    }
    bool is_folder = S_ISDIR(facts.st_mode);
    char *start = is_folder ? real : folder_of(plan, real);
    char *root = start ? find_root(plan, start) : NULL;
    if (root)
        plan_kitchen(plan, path, real, root);
    else if (is_folder)
        walk_folder(&(struct walk){ plan, "" }, path, "", UINT32_MAX, 0);
    else
        add_file(plan, add_kitchen(plan, NULL), path, true, false);
    return finish(plan, path);
}
