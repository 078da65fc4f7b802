/* Feeds along a toolpath through the C header. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <string.h>

enum { SEGMENTS = 3 };

static int near(double got, double wanted) { return fabs(got - wanted) <= 1e-9 * fabs(wanted); }

static tenths_path_cut cut_of(void) {
    tenths_path_cut cut;
    cut.struct_size = sizeof cut;
    CHECK(tenths_path_cut_init(10.0, 3, 6000.0, 0.05, 1700.0, 0.25, &cut) == TENTHS_OK);
    return cut;
}

/* A feed within a power draws that power in the whole cut. */
static void power(void) {
    const double lengths[SEGMENTS] = {5.0, 5.0, 5.0}, widths[SEGMENTS] = {1.0, 4.0, 10.0}, depths[SEGMENTS] = {8.0, 8.0, 8.0};
    double feeds[SEGMENTS], chips[SEGMENTS], times[SEGMENTS], total;
    tenths_feed_bound bounds[SEGMENTS];
    tenths_path_cut cut = cut_of();
    size_t k, rubbing;
    cut.greatest_power = 1.0;
    cut.least_chip_thickness = 0.01;
    CHECK(tenths_path_feeds(TENTHS_METRIC, &cut, lengths, NULL, widths, depths, SEGMENTS, feeds, chips, bounds, times, &total,
                            &rubbing) == TENTHS_OK);
    CHECK(bounds[0] == TENTHS_FEED_BOUND_CHIP_THICKNESS && bounds[1] == TENTHS_FEED_BOUND_POWER);
    CHECK(near(chips[0], 0.05) && rubbing == 1 && chips[2] < 0.01);
    CHECK(near(total, times[0] + times[1] + times[2]) && near(times[1], 5.0 / feeds[1]));
    for (k = 1; k < SEGMENTS; k++) {
        tenths_milling_cut_input input;
        tenths_milling_cut_output output;
        input.struct_size = sizeof input;
        output.struct_size = sizeof output;
        CHECK(tenths_milling_cut_init(TENTHS_METRIC, &input) == TENTHS_OK);
        input.cutter_diameter = 10.0;
        input.teeth = 3.0;
        input.spindle_speed = 6000.0;
        input.chip_load = feeds[k] / 18000.0;
        input.radial_width = widths[k];
        input.axial_depth = 8.0;
        input.kc11 = 1700.0;
        input.mc = 0.25;
        CHECK(tenths_milling_cut(TENTHS_METRIC, &input, &output, NULL) == TENTHS_OK);
        CHECK(near(output.cutting_power, 1.0));
    }
}

/* 100 mm from rest to rest at 200 mm/s and 2 m/s²: 0.6 s, by hand; and what is refused. */
static void motion(void) {
    double length = 100.0, none = 0.0, feed, total;
    tenths_feed_bound bound;
    tenths_path_cut cut = cut_of();
    cut.greatest_feed_rate = 12000.0;
    cut.acceleration = 2.0;
    CHECK(tenths_path_feeds(TENTHS_METRIC, &cut, &length, NULL, &none, &none, 1, &feed, NULL, &bound, NULL, &total, NULL) == TENTHS_OK);
    CHECK(near(total, 0.01) && feed == 12000.0 && bound == TENTHS_FEED_BOUND_FEED_RATE);
    length = 10.0;
    CHECK(tenths_path_feeds(TENTHS_METRIC, &cut, &length, NULL, &none, &none, 1, &feed, NULL, &bound, NULL, &total, NULL) == TENTHS_OK);
    CHECK(near(total, sqrt(0.02) / 60.0) && bound == TENTHS_FEED_BOUND_ACCELERATION);
    cut.greatest_feed_rate = NAN;
    cut.acceleration = NAN;
    CHECK(tenths_path_feeds(TENTHS_METRIC, &cut, &length, NULL, &none, &none, 1, &feed, NULL, NULL, NULL, &total, NULL) ==
          TENTHS_NO_PATH_FEEDS);
    CHECK(isnan(feed) && isnan(total));
    CHECK(tenths_path_feeds(TENTHS_METRIC, &cut, &length, NULL, NULL, &none, 1, &feed, NULL, NULL, NULL, &total, NULL) ==
          TENTHS_NULL_POINTER);
}

/* By hand: 8 kW of the motor at 6000 rev/min, and 10 N·m, which make 2π kW; the feed and acceleration of the machine. */
static void on_machine(void) {
    static const char mill[] = "{\"units\": \"metric\", \"least_spindle_speed\": 100, \"greatest_spindle_speed\": 8000, "
                               "\"greatest_feed_rate\": 9000, \"greatest_acceleration\": 3, "
                               "\"curve\": [{\"spindle_speed\": 6000, \"power\": 10, \"torque\": 10}]}";
    char message[400];
    tenths_path_cut cut = cut_of();
    CHECK(tenths_path_cut_on_machine(TENTHS_METRIC, mill, sizeof mill - 1, 0.8, &cut) == TENTHS_OK);
    CHECK(near(cut.greatest_power, 2 * 3.14159265358979323846) && cut.greatest_feed_rate == 9000.0 && near(cut.acceleration, 3.0));
    CHECK(isnan(cut.least_feed_rate));
    cut.spindle_speed = 9000.0;
    CHECK(tenths_path_cut_on_machine(TENTHS_METRIC, mill, sizeof mill - 1, 0.8, &cut) == TENTHS_NO_PATH_FEEDS);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "100 to 8000 rev/min, not 9000 rev/min") != NULL);
    CHECK(tenths_path_cut_on_machine(TENTHS_METRIC, NULL, 3, 0.8, &cut) == TENTHS_NULL_POINTER);
}

int main(void) {
    power();
    motion();
    on_machine();
    return finish();
}
