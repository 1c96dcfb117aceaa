/* base: memory, text, tables, files and ranges of numbers. No word of food here.
 *
 * Ownership: an arena owns all that is taken from it; freeing it is one call. A maker returns the thing or
 * NULL when memory failed, and the arena remembers (arena.failed): a room looks once, at its door. */
#ifndef QUERN_BASE_H
#define QUERN_BASE_H

#include <stdarg.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include "base/limit.h"

#if defined(__GNUC__)
#define QUERN_PRINTF(text, first) __attribute__((format(printf, text, first)))
#else
#define QUERN_PRINTF(text, first)
#endif

#define COUNT_OF(array) (sizeof(array) / sizeof((array)[0]))

enum status {
    STATUS_OK,
    STATUS_NO_MEMORY,
    STATUS_IO,          /* a file could not be read or written: errno tells */
    STATUS_LIMIT,       /* something is larger than limit.h allows */
    STATUS_BAD_PACK,    /* a library pack is damaged or of another version */
    STATUS_USAGE,       /* what was asked for makes no sense */
};

/* ---- arena.c ------------------------------------------------------------------------------------- */

/* Gives, grows and frees memory like realloc; size 0 frees. Returns NULL when there is none. */
struct allocator {
    void *(*resize)(void *context, void *block, size_t size);
    void *context;
};

/* The C library's allocator. */
struct allocator allocator_standard(void);

/* An allocator that remembers whether it ever gave nothing. Whoever looks at it before an answer goes out is sure that no word
 * or figure is missing from it for want of memory, whatever each maker did about that. It may be used by several threads. */
struct watched_memory {
    struct allocator allocator;
    atomic_bool failed;
};

struct allocator allocator_watched(struct watched_memory *memory);

struct arena_block;

struct arena {
    struct allocator allocator;
    struct arena_block *block;      /* the newest; older ones hang behind it */
    struct arena_block *spare;      /* emptied by arena_rewind, for the next time */
    bool failed;                    /* an allocation failed since the arena was opened */
};

struct arena_mark {
    struct arena_block *block;
    size_t used;
};

/* An empty arena; closing it gives all of its memory back. */
void arena_open(struct arena *arena, struct allocator allocator);
void arena_close(struct arena *arena);

/* `size` bytes, zeroed and aligned to 8, or NULL. */
void *arena_take(struct arena *arena, size_t size);

/* A copy of `length` bytes with a NUL behind them, or NULL. */
char *arena_copy(struct arena *arena, const char *bytes, size_t length);

/* Text made like printf, or NULL. */
char *arena_print(struct arena *arena, const char *format, ...) QUERN_PRINTF(2, 3);

/* Everything taken after the mark is given back, and its blocks are kept for use again. */
struct arena_mark arena_mark(const struct arena *arena);
void arena_rewind(struct arena *arena, struct arena_mark mark);

/* Makes room for one item more in a growing array of `size` bytes an item; false when memory failed, and
 * then nothing has changed. The caller raises the count after it has written the item. */
bool array_grow(struct allocator *allocator, void *items, uint32_t count, uint32_t *capacity, size_t size);

/* ---- buffer.c ------------------------------------------------------------------------------------ */

/* A slice of text that somebody else owns; not NUL-terminated. */
struct text {
    const char *bytes;
    uint32_t length;
};

struct text text_of(const char *string);
bool text_equal(struct text a, struct text b);
bool text_is(struct text text, const char *string);
bool text_starts(struct text text, const char *start);

/* What follows `start`; no bytes where the text does not begin so. */
struct text text_behind(struct text text, const char *start);

/* Bytes that grow. After a failure it takes no more, and `failed` stays. */
struct buffer {
    struct allocator allocator;
    char *bytes;
    size_t length, capacity;
    bool failed;
};

void buffer_open(struct buffer *buffer, struct allocator allocator);
void buffer_close(struct buffer *buffer);
bool buffer_reserve(struct buffer *buffer, size_t capacity);
void buffer_add(struct buffer *buffer, const char *bytes, size_t length);
void buffer_add_string(struct buffer *buffer, const char *string);
void buffer_print(struct buffer *buffer, const char *format, ...) QUERN_PRINTF(2, 3);
void buffer_print_list(struct buffer *buffer, const char *format, va_list arguments) QUERN_PRINTF(2, 0);

/* ---- table.c ------------------------------------------------------------------------------------- */

/* 64 bits that stand for the bytes; the same on every machine of one byte order, so that packs may hold them. */
uint64_t hash_bytes(const void *bytes, size_t length);
uint64_t hash_mix(uint64_t a, uint64_t b);

/* From hash to a number of the caller's. Two things may share a hash: the caller compares. Half of the hash is kept,
 * so that a large table is small; no table is so large that it needs the other. */
struct table_slot {
    uint32_t hash;
    uint32_t value;             /* TABLE_NONE: empty */
};

struct table {
    struct allocator allocator;
    struct table_slot *slots;
    uint32_t count, capacity;   /* capacity is a power of two, or 0 */
};

#define TABLE_NONE UINT32_MAX

/* An empty table, and its end. */
void table_open(struct table *table, struct allocator allocator);
void table_close(struct table *table);

/* The first value under `hash`, or TABLE_NONE; `position` carries the search on to the next. */
uint32_t table_find(const struct table *table, uint64_t hash, uint32_t *position);
uint32_t table_next(const struct table *table, uint64_t hash, uint32_t *position);
bool table_add(struct table *table, uint64_t hash, uint32_t value);

/* Adds, or overwrites the first value that stands under `hash`. */
bool table_put(struct table *table, uint64_t hash, uint32_t value);
/* Makes room for `count` values at once, where their number is known before. */
bool table_reserve(struct table *table, uint32_t count);

/* Files mapped for reading. A regular file only; `bytes` stays until file_unmap. STATUS_IO sets errno. A file that
 * somebody cuts short while it is mapped raises SIGBUS, at which main.c says so and ends the program: replace such files by
 * renaming, as output_file does. */
struct mapped_file {
    const void *bytes;
    size_t size;
};

enum status file_map(const char *path, size_t limit, struct mapped_file *mapped);
void file_unmap(struct mapped_file *mapped);

/* ---- utf8.c -------------------------------------------------------------------------------------- */

/* Length of the valid sequence at `bytes` (1 to 4), or 0 where there is none. */
uint32_t utf8_length(const char *bytes, size_t size);

/* The code point of a valid sequence. */
uint32_t utf8_code_point(const char *bytes, uint32_t length);

/* Control characters (C1 and bidirectional overrides included) that no text file may hold. */
bool utf8_is_forbidden(uint32_t code_point);

/* Whether an output may print it as it is: every one asks here. Beside what no file may hold it leaves out what has no width and
 * hides what a text says; joiners that scripts need stay. */
bool utf8_is_printable(uint32_t code_point);

/* Columns that a terminal uses for the code point: 0, 1 or 2. */
int utf8_width(uint32_t code_point);

/* Writes the word in lower case without accents, apostrophes and hyphens, and returns its length;
 * 0 when it does not fit into `capacity`. */
uint32_t utf8_fold(const char *bytes, uint32_t length, char *folded, uint32_t capacity);

/* Writes the letter at `bytes`, one valid sequence, in lower case (at most 4 bytes) and returns its length; 0 where it
 * is no letter. `is_mark`: an accent of its own, which belongs to the letter before it. */
uint32_t utf8_lower(const char *bytes, uint32_t length, char *lowered, bool *is_mark);

/* Adds the text with what is not printable, line ends too, made visible, so that no source drives a terminal. `lines`: line ends
 * and tabs stay. */
void buffer_add_visible(struct buffer *buffer, struct text text);
void buffer_add_visible_lines(struct buffer *buffer, struct text text);

/* Adds JSON, written by a library that leaves such characters in its strings, with these escaped. */
void buffer_add_json(struct buffer *buffer, struct text json);

/* ---- range.c ------------------------------------------------------------------------------------- */

/* An amount that is not known exactly: low <= best <= high. All are 0 or more in this program. What makes a range
 * checks that order, in every build but those with NDEBUG; who changes an end by itself keeps it. */
struct range {
    double low, best, high;
};

/* fmin and fmax for numbers that are numbers. Nothing here needs the mathematical library: to load it would be a tenth
 * of the time that checking one recipe takes. */
static inline double amount_smaller(double a, double b)
{
    return a < b ? a : b;
}

static inline double amount_larger(double a, double b)
{
    return a > b ? a : b;
}

/* 10 to the power of `exponent`, exact to 22 places and nearest down to -22. */
double power_of_ten(int exponent);

/* The exponent of the largest power of ten that is not above `amount`, which is above 0; -22 to 22. */
int amount_decade(double amount);

/* The amount in whole steps; what is a whole number of them but for noise stays that, in either direction. */
enum direction { ROUND_DOWN, ROUND_NEAREST, ROUND_UP };
double amount_round(double amount, double step, enum direction direction);

struct range range_exact(double value);
struct range range_of(double low, double best, double high);

/* Whether the ends stand in order, but for noise; what is no number stands in any. */
bool range_in_order(struct range range);

/* Low to high with the middle as best. */
struct range range_between(double low, double high);

struct range range_add(struct range a, struct range b);
struct range range_multiply(struct range a, struct range b);
struct range range_scale(struct range a, double factor);

/* What is left of `all` when `part` is taken out of it and nobody knows how far the two go together: most is left when
 * there was most and little went. Never below 0. */
struct range range_without(struct range all, struct range part);

/* a / b with every combination of bounds; b.low must be above 0. */
struct range range_divide(struct range a, struct range b);

/* The smallest range that holds both; best is the middle of the two bests. */
struct range range_join(struct range a, struct range b);
bool range_is_exact(struct range range);

/* Compares amounts: 0 when they are equal within 1e-9 of the larger, so that the noise of binary floating
 * point never decides; else -1 or 1. */
int amount_compare(double a, double b);

/* ---- days.c -------------------------------------------------------------------------------------- */

/* The day of `2026-02-01`, counted from 1 January 1970; 0 for what is no date of the calendar from 1971 to 9999. */
uint32_t day_of(struct text date);

/* The date of a day; 11 bytes are enough. */
struct text day_print(uint32_t day, char *storage, size_t size);

/* ---- threads.c ----------------------------------------------------------------------------------- */

/* Calls `work` on each of `count` items of `size` bytes, each but the first in a thread of its own, and waits. */
void threads_run(void *(*work)(void *), void *items, size_t size, uint32_t count);

/* ---- processes.c --------------------------------------------------------------------------------- */

/* Runs a program that is found on the PATH, without a shell, and waits for it. `arguments` begin with its name and end with
 * NULL; `environment`, lines NAME=VALUE and then NULL, is all that it gets of one. Input comes from the file `in` (NULL: there is
 * none); what it prints goes into the files `out` and `err`. STATUS_OK: `*result` is its exit status, 255 when a signal ended it;
 * STATUS_IO: it could not be started, and errno tells. */
enum status process_run(const char *const *arguments, const char *const *environment, const char *in, const char *out,
                        const char *err, int *result);

/* ---- files.c ------------------------------------------------------------------------------------- */

/* Reads a whole file below `folder` (a descriptor or AT_FDCWD) into `buffer`, two NULs behind it.
 * STATUS_LIMIT when it is larger than `limit`; STATUS_IO sets errno. */
enum status file_read(int folder, const char *name, size_t limit, struct buffer *buffer);

/* Reads standard input in the same way. */
enum status file_read_input(size_t limit, struct buffer *buffer);

/* An output that appears under its name only when all of it was written: a file beside it is renamed. */
struct output_file {
    char *path, *temporary;
    FILE *stream;
    bool passing;                   /* it can be made again, and need not outlast a crash of the machine: faster */
    struct allocator allocator;
};

enum status output_file_open(struct output_file *file, struct allocator allocator, const char *path);
enum status output_file_finish(struct output_file *file);
void output_file_abandon(struct output_file *file);

/* ---- scratch.c: what is soon forgotten. Its names carry our mark, this machine and this process, so that what a killed process
 * left can be told from what a living one has. */

#define TEMPORARY_BYTES 64

/* `.quern-MACHINE-PROCESS-XXXXXX`, for mkstemp and mkdtemp. */
void temporary_name(char *storage);

/* Takes away what processes of this machine and this user that are no more have left in the folder (or in that of the file):
 * nothing but what is called so. What cannot be taken away stays. */
void temporaries_clear(const char *folder, struct allocator allocator);
void temporaries_clear_beside(const char *path, struct allocator allocator);

/* A new folder of its own for files that are soon forgotten, in TMPDIR or /tmp, in memory of the arena; NULL when it cannot
 * be made, and errno tells. Removing takes away all that is in it. */
char *scratch_make(struct arena *arena);
void scratch_remove(const char *path, struct allocator allocator);

/* Makes the folders on the way to a file; false when it cannot, and errno tells. `path` is changed and changed back. */
bool folders_make(char *path);

#endif
