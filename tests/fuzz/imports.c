/* One input of the fuzzer as an import: a mapping, then a line `%%`, then the table that it is of. Without that line the table is
 * a small one. Nothing but what an import may say may come of it, and nothing may be left behind but under a final name. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "quern.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

static const char small_table[] = "Code;Food;Group;Sodium;Potassium\n1;mill oats;oats;12;340\n2;mill rye;oats;;1,5\n";

static bool forget(void *context, const char *bytes, size_t length)
{
    (void)bytes;
    *(size_t *)context += length;
    return true;
}

static void write_whole(const char *path, const void *bytes, size_t size)
{
    FILE *file = fopen(path, "wb");
    if (!file || fwrite(bytes, 1, size, file) != size || fclose(file) != 0)
        abort();
}

static const char *find_table(const char *bytes, size_t size)
{
    for (size_t i = 0; i + 4 <= size; i++) {
        if (memcmp(bytes + i, "\n%%\n", 4) == 0)
            return bytes + i;
    }
    return NULL;
}

static void import(const char *table, const char *map, const char *out)
{
    size_t written = 0;
    struct quern_session *session = quern_open(NULL);
    struct quern_import what = { .path = table, .map = map, .out = out, .skip_bad = true };
    if (!session)
        abort();
    enum quern_status status = quern_import(session, &what, forget, &written);
    if (status != QUERN_OK && status != QUERN_FINDINGS && status != QUERN_FAILED)
        abort();
    quern_close(session);
    unlink(out);
}

int LLVMFuzzerTestOneInput(const uint8_t *input, size_t size)
{
    const char *bytes = (const char *)input, *split = find_table(bytes, size);
    char folder[] = "/tmp/quern-fuzz-XXXXXX", map[64], table[64], out[64];
    if (!mkdtemp(folder))
        abort();
    snprintf(map, sizeof map, "%s/m.map", folder);
    snprintf(table, sizeof table, "%s/t.csv", folder);
    snprintf(out, sizeof out, "%s/o.pack", folder);
    write_whole(map, bytes, split ? (size_t)(split - bytes) + 1 : size);
    if (split)
        write_whole(table, split + 4, size - (size_t)(split - bytes) - 4);
    else
        write_whole(table, small_table, sizeof small_table - 1);
    import(table, map, out);
    unlink(map);
    unlink(table);
    if (rmdir(folder) != 0)                         /* something was left */
        abort();
    return 0;
}
