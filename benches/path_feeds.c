/* What a segment of a toolpath takes, without and with limits and the pass of acceleration, beside one inverse cosine of the C
 * library, without which no angle of engagement is had. benches/timing.py says what the lines mean; with an argument the program
 * only shows that it runs.
 *
 *     cargo build --release -p tenths-ffi
 *     cc -O2 -Iffi/include benches/path_feeds.c target/release/libtenths.a -lpthread -ldl -lm -o target/path_feeds
 */
#include "tenths.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { SEGMENTS = 100000 };

static int times = 50;

static double nanoseconds(void) {
    struct timespec now;
    timespec_get(&now, TIME_UTC);
    return 1e9 * (double)now.tv_sec + (double)now.tv_nsec;
}

static double column[8][SEGMENTS];
static tenths_feed_bound bounds[SEGMENTS];

/* The least time of one inverse cosine for each segment. */
static double inverse_cosine(void) {
    static volatile double sink;
    double best = 1e300;
    for (int turn = 0; turn < times; turn++) {
        double before = nanoseconds(), took;
        for (int k = 0; k < SEGMENTS; k++) sink = acos(1 - 0.2 * column[2][k]);
        took = (nanoseconds() - before) / SEGMENTS;
        best = took < best ? took : best;
    }
    (void)sink;
    return best;
}

static void measure(const char *what, const tenths_path_cut *cut) {
    double best = 1e300, total;
    for (int turn = 0; turn < times; turn++) {
        double before = nanoseconds(), took;
        if (tenths_path_feeds(TENTHS_METRIC, cut, column[0], column[1], column[2], column[3], SEGMENTS, column[4], column[5], bounds,
                              column[6], &total, NULL) != TENTHS_OK) {
            abort();
        }
        took = (nanoseconds() - before) / SEGMENTS;
        best = took < best ? took : best;
    }
    printf("a segment's feed by %s\ttenths\t%.3f\n", what, best);
    printf("a segment's feed by %s\tone `acos` in C\t%.3f\n", what, inverse_cosine());
}

int main(int count, char **arguments) {
    tenths_path_cut cut;
    int k;
    (void)arguments;
    if (count > 1) times = 1;
    cut.struct_size = sizeof cut;
    if (tenths_path_cut_init(10.0, 3, 6000.0, 0.05, 1700.0, 0.25, &cut) != TENTHS_OK) return 1;
    for (k = 0; k < SEGMENTS; k++) {
        column[0][k] = 0.2 + 0.001 * (k % 700);
        column[1][k] = (k % 3) * 0.02 - 0.01;
        column[2][k] = 0.5 + 0.001 * (k % 5000);
        column[3][k] = 8.0;
    }
    printf("# Plans of work\n");
    measure("chip thickness", &cut);
    cut.greatest_feed_rate = 8000.0;
    cut.greatest_power = 1.0;
    measure("chip, power, largest feed", &cut);
    cut.greatest_force = 400.0;
    cut.stiffness = 3000.0;
    cut.greatest_deflection = 0.05;
    measure("chip, force, deflection, power, largest feed", &cut);
    cut.acceleration = 2.0;
    measure("the same and acceleration", &cut);
    return 0;
}
