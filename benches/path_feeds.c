/* What a segment of a toolpath takes: nanoseconds for each, without and with the pass of acceleration.
 *
 *     cargo build --release -p tenths-ffi
 *     cc -O2 -Iffi/include benches/path_feeds.c -Ltarget/release -ltenths -lm -o target/path_feeds
 */
#include "tenths.h"
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { SEGMENTS = 100000, TIMES = 50 };

static double nanoseconds(void) {
    struct timespec now;
    timespec_get(&now, TIME_UTC);
    return 1e9 * (double)now.tv_sec + (double)now.tv_nsec;
}

static double column[8][SEGMENTS];
static tenths_feed_bound bounds[SEGMENTS];

static void measure(const char *what, const tenths_path_cut *cut) {
    double best = 1e300, total;
    int turn;
    for (turn = 0; turn < TIMES; turn++) {
        double before = nanoseconds(), took;
        if (tenths_path_feeds(TENTHS_METRIC, cut, column[0], column[1], column[2], column[3], SEGMENTS, column[4], column[5], bounds,
                              column[6], &total, NULL) != TENTHS_OK) {
            abort();
        }
        took = (nanoseconds() - before) / SEGMENTS;
        best = took < best ? took : best;
    }
    printf("%-45s %6.1f ns a segment, %.1f min in all\n", what, best, total);
}

int main(void) {
    tenths_path_cut cut;
    int k;
    cut.struct_size = sizeof cut;
    if (tenths_path_cut_init(10.0, 3, 6000.0, 0.05, 1700.0, 0.25, &cut) != TENTHS_OK) return 1;
    for (k = 0; k < SEGMENTS; k++) {
        column[0][k] = 0.2 + 0.001 * (k % 700);
        column[1][k] = (k % 3) * 0.02 - 0.01;
        column[2][k] = 0.5 + 0.001 * (k % 5000);
        column[3][k] = 8.0;
    }
    measure("chip thickness", &cut);
    cut.greatest_feed_rate = 8000.0;
    cut.greatest_power = 1.0;
    measure("chip, power, feed rate", &cut);
    cut.greatest_force = 400.0;
    cut.stiffness = 3000.0;
    cut.greatest_deflection = 0.05;
    measure("chip, force, deflection, power, feed rate", &cut);
    cut.acceleration = 2.0;
    measure("the same with acceleration", &cut);
    return 0;
}
