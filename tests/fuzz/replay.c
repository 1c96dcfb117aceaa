/* Feeds files to a target of the fuzzer, one after the other. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

static uint8_t *read_whole(const char *path, size_t *size)
{
    FILE *file = fopen(path, "rb");
    size_t capacity = 1 << 16;
    uint8_t *bytes = malloc(capacity);
    *size = 0;
    while (file && bytes) {
        size_t count = fread(bytes + *size, 1, capacity - *size, file);
        *size += count;
        if (count == 0)
            break;
        if (*size == capacity)
            bytes = realloc(bytes, capacity *= 2);
    }
    if (file)
        fclose(file);
    else
        *size = SIZE_MAX;
    return bytes;
}

/* A crash ends the program: then the last line before it names the input, and no count is printed. */
int main(int count, char **paths)
{
    int passed = 0;
    for (int i = 1; i < count; i++) {
        size_t size;
        uint8_t *bytes = read_whole(paths[i], &size);
        if (!bytes || size == SIZE_MAX) {
            fprintf(stderr, "cannot read %s\n", paths[i]);
            return 1;
        }
        fprintf(stderr, "%s\n", paths[i]);
        LLVMFuzzerTestOneInput(bytes, size);
        free(bytes);
        passed++;
    }
    printf("%d passed, 0 failed\n", passed);
    return passed > 0 ? 0 : 1;
}
