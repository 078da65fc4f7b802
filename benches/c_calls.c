/* Checked calls and a batch from C against the bare expression, in one run on one thread; benches/timing.py says what
 * its lines mean, and with an argument it only shows that it runs.
 *
 *   cargo build --release -p tenths-ffi
 *   cc -O2 -Iffi/include benches/c_calls.c target/release/libtenths.a -lpthread -ldl -lm -o target/c_calls
 *   target/c_calls
 */
#define _POSIX_C_SOURCE 199309L
#include "tenths.h"
#include <stdio.h>
#include <time.h>

enum { ROWS = 1000, REPEATS = 9 };

static double now(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e9 + (double)t.tv_nsec;
}

int main(int count, char **arguments) {
    const int CALLS = count > 1 ? 10 * ROWS : 10000000;
    static double diameters[ROWS], speeds[ROWS];
    const double turns = 1500.0;
    const tenths_column columns[2] = {{diameters, sizeof(double)}, {&turns, 0}};
    const tenths_result_column result = {speeds, sizeof(double)};
    volatile double diameter = 0.5, spindle_speed = 1500.0, sink = 0.0;
    double checked = 1e300, batch = 1e300, bare = 1e300, refused = 1e300;
    for (int k = 0; k < ROWS; k++) diameters[k] = 0.5 + k;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
        double start = now(), first, second, third, fourth, speed;
        for (int k = 0; k < CALLS; k++) {
            if (tenths_surface_speed(TENTHS_INCH, diameter, spindle_speed, &speed) != TENTHS_OK) return 1;
            sink = speed;
        }
        first = now();
        for (int k = 0; k < CALLS / ROWS; k++) {
            if (tenths_formula_batch("surface_speed", TENTHS_INCH, ROWS, columns, 2, &result, 1, NULL, NULL, NULL, NULL) !=
                TENTHS_OK)
                return 1;
        }
        second = now();
        for (int k = 0; k < CALLS; k++) sink = 3.141592653589793 * diameter * spindle_speed / 12.0;
        third = now();
        for (int k = 0; k < CALLS / 10; k++) {
            if (tenths_surface_speed(TENTHS_INCH, -diameter, spindle_speed, &speed) == TENTHS_OK) return 1;
        }
        fourth = now();
        if (first - start < checked) checked = first - start;
        if (second - first < batch) batch = second - first;
        if (third - second < bare) bare = third - second;
        if (10 * (fourth - third) < refused) refused = 10 * (fourth - third);
    }
    (void)sink;
    (void)arguments;
    printf("# Calls\n");
    printf("`surface_speed` from C, checked\ttenths\t%.3f\n", checked / CALLS);
    printf("`surface_speed` from C, checked\tbare expression\t%.3f\n", bare / CALLS);
    printf("`surface_speed` from C, refused\ttenths\t%.3f\n", refused / CALLS);
    printf("`surface_speed` from C, refused\ttenths, an answer\t%.3f\n", checked / CALLS);
    printf("`surface_speed` from C, in batches of %d\ttenths\t%.3f\n", ROWS, batch / CALLS);
    printf("`surface_speed` from C, in batches of %d\tbare expression\t%.3f\n", ROWS, bare / CALLS);
    return 0;
}
