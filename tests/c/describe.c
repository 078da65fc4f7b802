/* Solving and describing formulas by name: a form could be built from what is told here. */
#include "tenths.h"
#include "check.h"
#include <float.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

static int is_near(double x, double y, double within) { return fabs(x - y) <= within; }

static void solve(void) {
    double turning[2] = {NAN, 350.0};
    /* The joint of tests/published: 22 500 psi from 0.002 in, Solutions manual to Shigley, 8th ed., problem 3-68. */
    const double joint[10] = {0.0, 1.0, 2.0, 1.0, 30.0, 0.292, 30.0, 0.292, 0.15, 0.0};
    char message[300];
    double x = 1.0;
    /* 125 mm at 350 rev/min: 137.4 m/min, a printed problem of a tool maker (see tests/published). */
    CHECK(tenths_formula_solve("surface_speed", TENTHS_METRIC, "diameter", NULL, 137.4, turning, 2, &x) == TENTHS_OK);
    CHECK(is_near(x, 125.0, 0.05 / 137.4 * 125.0));
    CHECK(tenths_formula_solve("surface_speed", TENTHS_METRIC, "diameter", "surface_speed", 137.4, turning, 2,
                               &turning[0]) == TENTHS_OK);
    CHECK(turning[0] == x);
    CHECK(tenths_formula_solve("press_fit", TENTHS_INCH, "interference", "pressure", 22500.0, joint, 10, &x) ==
          TENTHS_OK);
    CHECK(is_near(x, 0.002, 0.5 / 22500.0 * 0.002));

    CHECK(tenths_formula_solve("press_fit", TENTHS_INCH, "interference", NULL, 1.0, joint, 10, &x) ==
          TENTHS_UNSOLVABLE);
    CHECK(x != x);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "give the result to solve from: pressure, ") != NULL);
    CHECK(tenths_formula_solve("press_fit", TENTHS_INCH, "diameter", "pressure", 1.0, joint, 10, &x) ==
          TENTHS_UNSOLVABLE);
    CHECK(tenths_formula_solve("press_fit", TENTHS_INCH, "interference", "pressure", -1.0, joint, 10, &x) ==
          TENTHS_UNSOLVABLE);
    CHECK(tenths_formula_solve("feed_rate", TENTHS_INCH, "teeth", NULL, 1.0, joint, 3, &x) == TENTHS_UNSOLVABLE);
    tenths_error_message(message, sizeof message);
    CHECK(strcmp(message, "feed_rate cannot be solved for teeth: it is a count") == 0);
    CHECK(tenths_formula_solve("feed_rate", TENTHS_INCH, "speed", NULL, 1.0, joint, 3, &x) == TENTHS_UNSOLVABLE);
    CHECK(tenths_formula_solve("feed_rate", TENTHS_INCH, "teeth", NULL, 1.0, joint, 2, &x) == TENTHS_UNSOLVABLE);
    CHECK(tenths_formula_solve("surface_speed", TENTHS_INCH, "diameter", NULL, 1.0, joint, 1, &x) ==
          TENTHS_BAD_COUNT);
    CHECK(tenths_formula_solve("surface_speed", TENTHS_INCH, "diameter", NULL, NAN, turning, 2, &x) ==
          TENTHS_UNSOLVABLE);
    turning[1] = -1.0;
    CHECK(tenths_formula_solve("surface_speed", TENTHS_INCH, "diameter", NULL, 1.0, turning, 2, &x) ==
          TENTHS_ARGUMENT);
    CHECK(tenths_formula_solve("surface_speed", 5, "diameter", NULL, 1.0, turning, 2, &x) == TENTHS_BAD_UNITS);
    CHECK(tenths_formula_solve("surface_speed", 0, NULL, NULL, 1.0, turning, 2, &x) == TENTHS_NULL_POINTER);
    CHECK(tenths_formula_solve("surface_speed", 0, "\xff", NULL, 1.0, turning, 2, &x) == TENTHS_BAD_TEXT);
    CHECK(tenths_formula_solve("surface_speed", 0, "diameter", NULL, 1.0, turning, 2, NULL) == TENTHS_NULL_POINTER);
}

static void argument(void) {
    struct { tenths_argument_info known; double later; } info;
    info.later = 7.0;
    info.known.struct_size = sizeof info;
    CHECK(tenths_formula_argument("surface_speed", 0, TENTHS_INCH, &info.known) == TENTHS_OK);
    CHECK(info.known.struct_size == sizeof info && info.later == 7.0);
    CHECK(strcmp(info.known.name, "diameter") == 0 && strcmp(info.known.unit, "in") == 0);
    CHECK(strcmp(info.known.quantity, "Length") == 0 && strcmp(info.known.must_be, "greater than 0 in") == 0);
    CHECK(info.known.low == 0.0 && !info.known.low_included && info.known.high == HUGE_VAL);
    CHECK(!info.known.has_default && info.known.default_value != info.known.default_value);
    CHECK(!info.known.whole && info.known.solvable && info.known.range_low == -HUGE_VAL);
    CHECK(tenths_formula_argument("screw_preload", 2, TENTHS_METRIC, &info.known) == TENTHS_OK);
    CHECK(info.known.has_default && info.known.default_value == 0.2 && *info.known.unit == '\0');
    CHECK(tenths_formula_argument("press_fit", 4, TENTHS_METRIC, &info.known) == TENTHS_OK);
    CHECK(strcmp(info.known.unit, "GPa") == 0 && info.known.usual_low == 1.0 && info.known.usual_high == 750.0);
    CHECK(tenths_formula_argument("press_fit", 5, TENTHS_INCH, &info.known) == TENTHS_OK);
    CHECK(info.known.high == 0.5 && info.known.low_included && info.known.high_included);
    CHECK(tenths_formula_argument("feed_rate", 1, TENTHS_INCH, &info.known) == TENTHS_OK);
    CHECK(info.known.whole && !info.known.solvable);

    CHECK(tenths_formula_argument("feed_rate", 3, TENTHS_INCH, &info.known) == TENTHS_BAD_INDEX);
    CHECK(tenths_formula_argument("feed_rate", (size_t)-1, TENTHS_INCH, &info.known) == TENTHS_BAD_INDEX);
    CHECK(tenths_formula_argument("feed_rate", 0, 2, &info.known) == TENTHS_BAD_UNITS);
    CHECK(tenths_formula_argument("no such", 0, 0, &info.known) == TENTHS_UNKNOWN_FORMULA);
    CHECK(tenths_formula_argument("feed_rate", 0, 0, NULL) == TENTHS_NULL_POINTER);
    /* A caller of the first version gets what there was then, and one byte less is refused. */
    info.known.struct_size = offsetof(tenths_argument_info, usual_low);
    CHECK(tenths_formula_argument("feed_rate", 0, TENTHS_INCH, &info.known) == TENTHS_OK);
    info.known.struct_size--;
    CHECK(tenths_formula_argument("feed_rate", 0, TENTHS_INCH, &info.known) == TENTHS_BAD_STRUCT_SIZE);
}

static void formula(void) {
    tenths_formula_info info;
    tenths_output_info output;
    const char *rule = "x";
    info.struct_size = sizeof info;
    output.struct_size = sizeof output;
    CHECK(tenths_formula_describe("press_fit", &info) == TENTHS_OK);
    CHECK(strcmp(info.name, "press_fit") == 0 && strcmp(info.topic, "joint: press_fit") == 0);
    CHECK(info.arguments == 10 && info.outputs == 7 && info.rules == 2);
    CHECK(strstr(info.source, "9th ed.") != NULL && strlen(info.doc) > strlen(info.summary));
    CHECK(strncmp(info.doc, info.summary, strlen(info.summary)) == 0);
    CHECK(strstr(info.caution, "licensed engineer") != NULL);
    CHECK(tenths_formula_describe("spindle_speed", &info) == TENTHS_OK);
    CHECK(strstr(info.caution, "lowest limit of spindle, chuck") != NULL);
    CHECK(tenths_formula_describe("surface_speed", &info) == TENTHS_OK && *info.caution == '\0');
    /* A program that was compiled before there were cautions gets none. */
    info.struct_size = offsetof(tenths_formula_info, caution);
    info.caution = "mine";
    CHECK(tenths_formula_describe("press_fit", &info) == TENTHS_OK && strcmp(info.caution, "mine") == 0);
    info.struct_size = offsetof(tenths_formula_info, caution) - 1;
    CHECK(tenths_formula_describe("press_fit", &info) == TENTHS_BAD_STRUCT_SIZE);
    info.struct_size = sizeof info;
    CHECK(tenths_formula_output("press_fit", 6, TENTHS_INCH, &output) == TENTHS_OK);
    CHECK(strcmp(output.name, "torque") == 0 && strcmp(output.unit, "lbf\xc2\xb7" "ft") == 0);
    CHECK(tenths_formula_output("press_fit", 7, TENTHS_INCH, &output) == TENTHS_BAD_INDEX);
    CHECK(tenths_formula_output("press_fit", 0, 9, &output) == TENTHS_BAD_UNITS);
    CHECK(tenths_formula_rule("press_fit", 1, &rule) == TENTHS_OK);
    CHECK(strcmp(rule, "shaft_bore must be less than diameter") == 0);
    CHECK(tenths_formula_rule("press_fit", 2, &rule) == TENTHS_BAD_INDEX && rule == NULL);
    CHECK(tenths_formula_describe("no such", &info) == TENTHS_UNKNOWN_FORMULA);
}

/* In a slot the mean chip is 2/pi of the chip load: 0.038 mm, but the source covers 0.05 to 2.5 mm. */
static void advice_on_a_result(void) {
    tenths_output_info output;
    tenths_milling_cut_input in;
    tenths_milling_cut_output out;
    uint32_t advice;
    output.struct_size = sizeof output;
    CHECK(tenths_formula_output("milling_cut", 5, TENTHS_METRIC, &output) == TENTHS_OK);
    CHECK(strcmp(output.name, "chip_thickness_mean") == 0 && output.range_low == 0.05 && output.range_high == 2.5);
    CHECK(tenths_formula_output("milling_cut", 0, TENTHS_INCH, &output) == TENTHS_OK);
    CHECK(output.range_low < -DBL_MAX && output.range_high > DBL_MAX);
    /* A program that was compiled before there were ranges gets none. */
    output.struct_size = offsetof(tenths_output_info, range_low);
    output.range_low = 7;
    CHECK(tenths_formula_output("milling_cut", 5, TENTHS_METRIC, &output) == TENTHS_OK);
    CHECK(strcmp(output.unit, "mm") == 0 && output.range_low == 7);
    in.struct_size = sizeof in;
    out.struct_size = sizeof out;
    CHECK(tenths_milling_cut_init(TENTHS_METRIC, &in) == TENTHS_OK);
    in.cutter_diameter = in.radial_width = 20;
    in.teeth = 4;
    in.spindle_speed = 3000;
    in.chip_load = 0.06;
    in.axial_depth = 5;
    in.kc11 = 1700;
    in.mc = 0.25;
    CHECK(tenths_milling_cut(TENTHS_METRIC, &in, &out, &advice) == TENTHS_OK);
    CHECK(advice == 1u << (TENTHS_ADVICE_RESULTS + 5));
    in.chip_load = 0.1;
    CHECK(tenths_milling_cut(TENTHS_METRIC, &in, &out, &advice) == TENTHS_OK && advice == 0);
}

/* Every formula, argument and result, and that what is told of one holds: its ends are where its domain ends. */
static void everything(void) {
    double x[20];
    size_t f, k;
    uint32_t advice;
    for (f = 0; f < tenths_formula_count(); f++) {
        const char *name = tenths_formula_name(f);
        tenths_formula_info info;
        tenths_argument_info argument;
        tenths_output_info output;
        info.struct_size = sizeof info;
        argument.struct_size = sizeof argument;
        output.struct_size = sizeof output;
        CHECK(tenths_formula_describe(name, &info) == TENTHS_OK && strcmp(info.name, name) == 0);
        CHECK(strlen(info.summary) > 10 && strlen(info.source) > 5 && *info.topic != '\0');
        for (k = 0; k < info.outputs; k++) {
            CHECK(tenths_formula_output(name, k, TENTHS_METRIC, &output) == TENTHS_OK && *output.name != '\0');
            CHECK(output.range_low < output.range_high);
        }
        for (k = 0; k < info.arguments; k++) {
            CHECK(tenths_formula_argument(name, k, TENTHS_METRIC, &argument) == TENTHS_OK);
            CHECK(strlen(argument.doc) > 5 && strlen(argument.must_be) > 5);
            CHECK(argument.has_default == (argument.default_value == argument.default_value));
            CHECK(argument.low < argument.high && argument.range_low < argument.range_high);
            x[k] = argument.low;
        }
        /* The first argument whose lower end is excluded is refused at it; the message names it. */
        for (k = 0; k < info.arguments; k++) {
            CHECK(tenths_formula_argument(name, k, TENTHS_METRIC, &argument) == TENTHS_OK);
            if (argument.low_included) continue;
            CHECK(tenths_formula_check(name, TENTHS_METRIC, x, info.arguments, &advice) == TENTHS_ARGUMENT);
            {
                char message[300];
                tenths_error_message(message, sizeof message);
                CHECK(strstr(message, argument.name) != NULL && strstr(message, argument.must_be) != NULL);
            }
            break;
        }
    }
    CHECK(f > 10);
}

int main(void) {
    solve();
    argument();
    formula();
    advice_on_a_result();
    everything();
    return finish();
}
