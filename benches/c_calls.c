/* A checked scalar call from C against the bare expression, in one run on one thread: nanoseconds a call.
 *
 *   cargo build --release -p tenths-ffi
 *   cc -O2 -Iffi/include benches/c_calls.c target/release/libtenths.a -lpthread -ldl -lm -o target/c_calls
 *   target/c_calls
 */
#define _POSIX_C_SOURCE 199309L
#include "tenths.h"
#include <stdio.h>
#include <time.h>

enum { CALLS = 10000000, REPEATS = 9 };

static double now(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e9 + (double)t.tv_nsec;
}

int main(void) {
    volatile double diameter = 0.5, spindle_speed = 1500.0, sink = 0.0;
    double checked = 1e300, bare = 1e300;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
        double start = now(), middle, speed;
        for (int k = 0; k < CALLS; k++) {
            if (tenths_surface_speed(TENTHS_INCH, diameter, spindle_speed, &speed) != TENTHS_OK) return 1;
            sink = speed;
        }
        middle = now();
        for (int k = 0; k < CALLS; k++) sink = 3.141592653589793 * diameter * spindle_speed / 12.0;
        if (middle - start < checked) checked = middle - start;
        if (now() - middle < bare) bare = now() - middle;
    }
    (void)sink;
    printf("surface_speed from C: %.1f ns checked, %.1f ns bare\n", checked / CALLS, bare / CALLS);
    return 0;
}
