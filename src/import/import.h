/* import: tables that others published, or that somebody keeps, become foods in our language.
 *
 * What the tables look like is knowledge and stands in a mapping (docs/import.md); two of them, for published data,
 * are embedded. Rows are streamed. Rows that belong to one food and lie apart are parted by food into unnamed files,
 * so that memory stays the same whatever the size of the tables. Files are written in a hidden folder and named at the
 * end; until then, and after a failure, there is nothing. */
#ifndef QUERN_IMPORT_H
#define QUERN_IMPORT_H

#include "base/base.h"
#include "library/library.h"

struct import_request {
    const char *path;               /* a file, or the folder of the tables */
    const char *folder;             /* where to write; it is made when it is not there */
    bool for_pack;                  /* a pack is made of what is written: the folder is not spoken of */
    const char *form;               /* the name of an embedded mapping, "table", or NULL: found out */
    const char *map_path;           /* a mapping, or NULL */
    const char *source;             /* cited by every food before its number, or NULL: as the mapping says */
    const char *prefix;             /* of the written files, or NULL: as the path is called */
    bool skip_wrong;                /* leave wrong rows out instead of failing */
    const struct library *library;
    struct allocator allocator;

    /* Takes what there is to say; false when it cannot. */
    bool (*say)(void *context, const char *bytes, size_t length);
    void *say_context;

    /* Told after each piece that was read; false ends the import. May be NULL. */
    bool (*progress)(void *context, uint64_t done, uint64_t whole);
    void *progress_context;
};

struct import_outcome {
    uint64_t wrong;                 /* rows, and statements of the mapping */
    uint64_t foods, renamed, without_figures, without_measure;
    uint32_t files;
    char failure[512];              /* why the status is not STATUS_OK; "" where it is STATUS_NO_MEMORY */
};

/* Imports, and says what was wrong and what was written. STATUS_OK also where wrong rows made it write nothing. */
enum status import_run(const struct import_request *request, struct import_outcome *outcome);

#endif
