/* Counts checks that hold and prints those that do not. */
#ifndef CHECK_H
#define CHECK_H
#include <stdio.h>

static int passed = 0, failed = 0;

static inline void check_at(int holds, const char *what, const char *file, int line) {
    if (holds) {
        passed++;
    } else {
        failed++;
        printf("%s:%d: not so: %s\n", file, line, what);
    }
}
#define CHECK(condition) check_at((condition) != 0, #condition, __FILE__, __LINE__)

static inline int finish(void) {
    printf("%d passed, %d failed\n", passed, failed);
    return failed != 0;
}
#endif
