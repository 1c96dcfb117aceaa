/* Which kitchens are meant by the paths of a command, and which files belong to them. */
#ifndef QUERN_MODEL_FOLDER_H
#define QUERN_MODEL_FOLDER_H

#include "base/base.h"

struct planned_file {
    const char *path;               /* as shown and opened; "-" is standard input */
    bool requested, is_kitchen;
    bool is_refused;                /* it leads out of its folder through a link: it may not be opened */
};

/* One kitchen: a folder with its kitchen.quern, or a single file. */
struct planned_kitchen {
    const char *root;               /* as shown; NULL: a file on its own */
    char *real_root;                /* to tell whether two paths mean one kitchen */
    struct planned_file *files;
    uint32_t files_count, files_capacity;
};

struct plan {
    struct arena arena;
    struct planned_kitchen *kitchens;
    uint32_t kitchens_count, kitchens_capacity;
    const char *failed_path;        /* the path that could not be planned */
    int reason;                     /* its errno, or 0: no .quern file below it */
    bool too_deep;                  /* the failed path lies in too many folders */
    bool no_memory;
    bool follow_links;              /* paths may lead out of their folders through links */
    bool is_refused;                /* the failed path does */
};

/* An empty plan, and its end: the paths in it live until then. */
void plan_open(struct plan *plan, struct allocator allocator);
void plan_close(struct plan *plan);

/* Where what the path leads to lies, links followed: in the folder or below it, or outside. */
enum path_place { PATH_MISSING, PATH_WITHIN, PATH_OUTSIDE, PATH_UNTOLD };      /* untold: errno says why */
enum path_place path_place(const char *path, const char *folder);

/* Adds what a path means: a file, a folder, or "-". STATUS_OK, STATUS_NO_MEMORY, STATUS_IO (see failed_path,
 * reason), STATUS_USAGE when a folder holds no .quern file. Hidden folders are left out, symbolic links inside a
 * folder are not followed. A path that is a link, or passes through one, that leads out of the folder in which the link lies is
 * refused unless `follow_links`: a file is planned as refused, a folder is STATUS_IO. Files of a folder come in order of name. */
enum status plan_add(struct plan *plan, const char *path);

#endif
