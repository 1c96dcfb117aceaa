/* Threads that work side by side on items of an array; where one cannot be started, the caller does its work. */
#include <pthread.h>

#include "base/base.h"

void threads_run(void *(*work)(void *), void *items, size_t size, uint32_t count)
{
    pthread_t threads[LIMIT_JOBS];
    bool started[LIMIT_JOBS] = { false };
    for (uint32_t i = 1; i < count && i < LIMIT_JOBS; i++)
        started[i] = pthread_create(&threads[i], NULL, work, (char *)items + i * size) == 0;
    for (uint32_t i = 0; i < count; i++) {
        if (!started[i])
            work((char *)items + i * size);
    }
    for (uint32_t i = 1; i < count; i++) {
        if (started[i])
            pthread_join(threads[i], NULL);
    }
}
