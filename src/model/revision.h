/* What a kitchen was at a revision of git: its files as they were, in a folder of their own. Nothing of the repository is
 * changed, nothing is fetched. */
#ifndef QUERN_MODEL_REVISION_H
#define QUERN_MODEL_REVISION_H

#include "model/folder.h"

struct revision {
    char *scratch;                  /* the folder, or NULL; revision_remove takes it away */
    const char *path;               /* in it: what stands for the kitchen's folder, or for the file on its own */
    size_t strip;                   /* bytes of paths below it that are not shown */
    char failure[400];              /* why it cannot be had, for people */
};

/* Gets the files of a planned kitchen as they were. `name` is what people call the revision. STATUS_OK, STATUS_NO_MEMORY,
 * else STATUS_USAGE or STATUS_IO with `failure` told. The arena holds the texts. */
enum status revision_fetch(struct revision *revision, const struct planned_kitchen *planned, const char *name, struct arena *arena);
void revision_remove(struct revision *revision, struct allocator allocator);

#endif
