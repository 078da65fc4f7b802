/* Checked calls, refused calls and a batch from C against the bare expression, in one run on one thread: nanoseconds a row.
 *
 *   cargo build --release -p tenths-ffi
 *   cc -O2 -Iffi/include benches/c_calls.c target/release/libtenths.a -lpthread -ldl -lm -o target/c_calls
 *   target/c_calls
 */
#define _POSIX_C_SOURCE 199309L
#include "tenths.h"
#include <stdio.h>
#include <time.h>

enum { CALLS = 10000000, ROWS = 1000, REPEATS = 9 };

static double now(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e9 + (double)t.tv_nsec;
}

int main(void) {
    static double diameters[ROWS], speeds[ROWS];
    const double turns = 1500.0;
    const tenths_column columns[2] = {{diameters, sizeof(double)}, {&turns, 0}};
    const tenths_result_column result = {speeds, sizeof(double)};
    volatile double diameter = 0.5, spindle_speed = 1500.0, sink = 0.0;
    volatile double wrong = -0.5;
    double checked = 1e300, refused = 1e300, batch = 1e300, bare = 1e300;
    for (int k = 0; k < ROWS; k++) diameters[k] = 0.5 + k;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
        double start = now(), first, second, third, speed;
        for (int k = 0; k < CALLS; k++) {
            if (tenths_surface_speed(TENTHS_INCH, diameter, spindle_speed, &speed) != TENTHS_OK) return 1;
            sink = speed;
        }
        first = now();
        for (int k = 0; k < CALLS; k++) {
            if (tenths_surface_speed(TENTHS_INCH, wrong, spindle_speed, &speed) != TENTHS_ARGUMENT) return 1;
            sink = speed;
        }
        second = now();
        for (int k = 0; k < CALLS / ROWS; k++) {
            if (tenths_formula_batch("surface_speed", TENTHS_INCH, ROWS, columns, 2, &result, 1, NULL, NULL, NULL, NULL) !=
                TENTHS_OK)
                return 1;
        }
        third = now();
        for (int k = 0; k < CALLS; k++) sink = 3.141592653589793 * diameter * spindle_speed / 12.0;
        if (first - start < checked) checked = first - start;
        if (second - first < refused) refused = second - first;
        if (third - second < batch) batch = third - second;
        start = now();
        if (start - third < bare) bare = start - third;
    }
    (void)sink;
    printf("surface_speed from C: %.1f ns checked, %.1f ns refused, %.2f ns in batches of %d, %.2f ns bare\n", checked / CALLS,
           refused / CALLS, batch / CALLS, ROWS, bare / CALLS);
    printf("in bare expressions: %.1f checked, %.1f refused, %.2f in batches; a refused call is %.1f checked ones\n",
           checked / bare, refused / bare, batch / bare, refused / checked);
    return 0;
}
