/* A refused call takes no memory: its message is made when it is asked for. */
#include "check.h"
#include "tenths.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static size_t taken;

#if defined(__GLIBC__)
/* The library takes its memory from here too: the loader prefers what the program defines. */
extern void *__libc_malloc(size_t size);
extern void *__libc_realloc(void *old, size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_memalign(size_t alignment, size_t size);

void *malloc(size_t size) {
    taken++;
    return __libc_malloc(size);
}

void *realloc(void *old, size_t size) {
    taken++;
    return __libc_realloc(old, size);
}

void *calloc(size_t count, size_t size) {
    taken++;
    return __libc_calloc(count, size);
}

int posix_memalign(void **to, size_t alignment, size_t size) {
    taken++;
    *to = __libc_memalign(alignment, size);
    return *to == NULL;
}
#endif

int main(void) {
    tenths_press_fit_input in;
    tenths_press_fit_output out;
    char message[200];
    double speed;
    size_t before;
    int k;
    in.struct_size = sizeof in;
    out.struct_size = sizeof out;
    tenths_press_fit_init(TENTHS_METRIC, &in);
    in.interference = 0.02;
    in.diameter = in.length = 20.0;
    in.hub_outer_diameter = 15.0;
    in.hub_modulus = in.shaft_modulus = 210.0;
    in.hub_poisson = in.shaft_poisson = 0.3;
    in.friction = 0.1;
    /* The first failure of a thread makes a place for its last. */
    tenths_surface_speed(TENTHS_METRIC, -1.0, 1000.0, &speed);
    before = taken;
    for (k = 0; k < 100; k++) {
        CHECK(tenths_surface_speed(TENTHS_METRIC, -1.0 - k, 1000.0, &speed) == TENTHS_ARGUMENT && isnan(speed));
        CHECK(tenths_surface_speed(TENTHS_METRIC, 1e308, 1e308, &speed) == TENTHS_NO_ANSWER);
        CHECK(tenths_surface_speed(7, 1.0, 1.0, &speed) == TENTHS_BAD_UNITS);
        CHECK(tenths_press_fit(TENTHS_METRIC, &in, &out, NULL) == TENTHS_RULE && isnan(out.torque));
    }
    CHECK(taken == before);
    tenths_error_message(message, sizeof message);
    CHECK(strcmp(message, "") != 0 && strstr(message, "press_fit: ") == message && strstr(message, "15 mm") != NULL);
#if defined(__GLIBC__)
    CHECK(taken > before); /* so that the counting itself is seen to work */
#endif
    return finish();
}
