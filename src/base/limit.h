/* Every limit of the program in one place. Each has a finding or a message, and a test at the limit. */
#ifndef QUERN_BASE_LIMIT_H
#define QUERN_BASE_LIMIT_H

#include <stddef.h>

#define LIMIT_FILE_BYTES ((size_t)64 << 20)    /* one text file */
#define LIMIT_PACK_BYTES ((size_t)4 << 30)     /* a library pack: its places are numbers of 32 bits */
#define LIMIT_NESTING 64                       /* blocks inside blocks */
#define LIMIT_PARSE_DEPTH 4096                 /* bison's stacks: fixed, it never allocates */
#define LIMIT_NUMBER 1e9                       /* largest amount a recipe may write */
#define LIMIT_NUMBER_DIGITS 15                 /* digits that a double carries exactly */
#define LIMIT_SPOON_ERROR 0.5                   /* by which a spoon or cup may be said to err */
#define LIMIT_DRIVER 1e15                       /* hundreds of grams of a line: beyond it figures mean nothing */
#define LIMIT_AMOUNT 1e30                       /* of any nutrient in a recipe within a recipe */
#define LIMIT_COLUMNS 64                       /* nutrients, origins and mass: one bit each in a word */
#define LIMIT_NUTRIENTS 56                     /* the rest of the columns is for origins and mass */
#define LIMIT_NAME_WORDS 24                    /* words in the name of a food */
#define LIMIT_PHRASES 16                       /* phrases after the commas of one line */
#define LIMIT_LINE_WORDS 64                    /* words of one line before its commas, and words that may choose a portion */
#define LIMIT_REMARKS 4                        /* parentheses of one line that hold no measure */
#define LIMIT_PEELED 6                         /* treatments before the noun: more is no way to write, and no food is found */
#define LIMIT_EATER_WORDS 6                    /* words that say for whom a day or recipe is */
#define LIMIT_EATER_KINDS (2 * LIMIT_EATER_WORDS)   /* kinds of person that they and the age come to */
#define LIMIT_GROUP_DEPTH 64                   /* groups of foods inside groups, the innermost counted */
#define LIMIT_CLAIM_DEPTH 4                    /* claims that rest on one another: beyond it the claim is in doubt */
#define LIMIT_DISH_TOLD 16                     /* troubles of one dish that are told at once */
#define LIMIT_DISH_LINES 16384                  /* lines of a recipe that is looked at as one dish: each takes a kilobyte */
#define LIMIT_BATHS 256                         /* baths of one recipe */
#define LIMIT_SUBSTANCE_WORDS 4                /* words that a list of ingredients is searched for at once */
#define LIMIT_FOLDERS 64                       /* folders inside folders of a kitchen */
#define LIMIT_RECIPE_DEPTH 64                  /* recipes inside recipes */
#define LIMIT_PORTIONS 1000                     /* portions of one food: each line that uses it looks at all */
#define LIMIT_FORMULA_DEPTH 8                   /* parentheses inside parentheses of a formula */
#define LIMIT_FORMULA_NUMBER 9999               /* atoms or groups that one number of a formula counts */
#define LIMIT_JOBS 64                          /* threads */
#define LIMIT_ALLOWED_FOLDERS 16                /* times that --allow may be said */
#define LIMIT_REMEMBERED_LINES 65536            /* lines that are not parsed again when they come again */
#define LIMIT_REMEMBERED_BYTES 256              /* and how long one may be */
#define LIMIT_CRAFTS 32                        /* of the library: one bit each in a word */
#define LIMIT_CAUTIONS 40                       /* of one rule pack */
#define LIMIT_NEAR_SEARCHES 200                 /* for names near an unknown one, of each sort; later ones get no offer */
#define LIMIT_DAMAGE_TOLD 1000                 /* damaged bytes and characters that one file may tell */
#define LIMIT_IMPORT_ROW_BYTES ((size_t)1 << 20) /* one row of a table that is imported */
#define LIMIT_IMPORT_COLUMNS 2048               /* its columns */
#define LIMIT_IMPORT_FILE_BYTES ((size_t)16 << 20)  /* a file that importing writes; then the next begins */
#define LIMIT_IMPORT_SHOWN 20                   /* wrong rows that are shown; the rest is counted */

#ifdef QUERN_SMALL                             /* the test build shrinks what only costs memory */
#define ARENA_BLOCK_BYTES ((size_t)64)
#define ARENA_LARGEST_BLOCK_BYTES ((size_t)256)
#define ARRAY_FIRST_COUNT 2
#else
#define ARENA_BLOCK_BYTES ((size_t)4000)       /* the first block; each is twice the one before … */
#define ARENA_LARGEST_BLOCK_BYTES ((size_t)256 << 10)   /* … up to this */
#define ARRAY_FIRST_COUNT 16
#endif

#endif
