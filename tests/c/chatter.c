/* Stability of cuts through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double NO_DIRECTION[] = {NAN};

static tenths_chatter_cut cut_of(double force) {
    tenths_chatter_cut cut;
    cut.struct_size = sizeof cut;
    CHECK(tenths_chatter_cut_init(force, &cut) == TENTHS_OK);
    return cut;
}

static double number_of(const char *text) { return strtod(text, NULL); }

/* The limits of tests/published/chatter.csv that have one mode. */
static int published_line(char *line) {
    char *fields[10], *rest = line, *mode;
    double frequency, stiffness, damping, direction, depth, got;
    tenths_chatter_cut cut;
    tenths_chatter *chatter = NULL;
    int k;
    for (k = 0; k < 10; k++) {
        fields[k] = rest;
        rest = strchr(rest, ';');
        if (rest == NULL) break;
        *rest++ = '\0';
    }
    if (k != 9) return 0;
    frequency = strtod(fields[1], &mode);
    stiffness = strtod(strstr(mode, "Hz ") + 3, &mode);
    damping = strtod(strstr(mode, "mm ") + 3, &mode);
    direction = *mode == ' ' ? strtod(mode, NULL) : NAN;
    cut = cut_of(number_of(fields[2]));
    cut.teeth = (uint32_t)number_of(fields[3]);
    if (strncmp(fields[4], "milling ", 8) == 0) {
        cut.entry_angle = strtod(fields[4] + 8, &rest);
        cut.exit_angle = strtod(rest, &rest);
        cut.radial_force_ratio = strtod(rest, NULL);
    }
    CHECK(tenths_chatter_new(TENTHS_METRIC, &frequency, &stiffness, &damping, &direction, 1, &cut, &chatter) == TENTHS_OK);
    depth = number_of(fields[6]);
    if (strcmp(fields[5], "critical") == 0) {
        tenths_stability stability;
        stability.struct_size = sizeof stability;
        CHECK(tenths_chatter_stability(chatter, TENTHS_METRIC, &stability) == TENTHS_OK);
        got = stability.critical_depth;
        CHECK(stability.modes_count == 1 && stability.modes[0].frequency == frequency && !stability.estimated);
        tenths_stability_clear(&stability);
    } else {
        double speed = number_of(fields[5]);
        CHECK(tenths_chatter_depths(chatter, TENTHS_METRIC, &speed, 1, &got) == TENTHS_OK);
    }
    CHECK(fabs(got / depth - 1.0) <= number_of(fields[7]));
    tenths_chatter_free(chatter);
    return 1;
}

static void published(void) {
    char line[2000];
    int lines = 0;
    FILE *file = fopen("tests/published/chatter.csv", "r");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        if (line[0] != '#') lines += published_line(line);
    }
    fclose(file);
    CHECK(lines >= 31);
}

static void speeds(void) {
    const double frequency[] = {500.0}, stiffness[] = {10000.0}, damping[] = {0.05};
    tenths_chatter_cut cut = cut_of(2000.0);
    tenths_chatter *chatter = NULL;
    tenths_stable_cut stable;
    uint32_t lobes[5];
    double n[5], depths[5], checked[5];
    size_t count, k;
    char *svg = NULL;
    stable.struct_size = sizeof stable;
    CHECK(tenths_chatter_new(TENTHS_METRIC, frequency, stiffness, damping, NO_DIRECTION, 1, &cut, &chatter) == TENTHS_OK);
    CHECK(tenths_chatter_nearest_stable_speed(chatter, TENTHS_METRIC, 1.0, 12000.0, 0.0, 0.0, &stable) == TENTHS_OK);
    CHECK(stable.depth >= 1.0 && stable.depth < 1.001 && stable.has_lobe);
    CHECK(tenths_chatter_deepest(chatter, TENTHS_METRIC, 9000.0, 20000.0, &stable) == TENTHS_OK);
    CHECK(stable.depth > 1.0 && stable.spindle_speed > 9000.0 && stable.spindle_speed <= 20000.0);
    CHECK(tenths_chatter_lobes(chatter, TENTHS_METRIC, 9000.0, 20000.0, lobes, n, depths, 5, &count) == TENTHS_OK);
    CHECK(count > 100);
    CHECK(tenths_chatter_depths(chatter, TENTHS_METRIC, n, 5, checked) == TENTHS_OK);
    for (k = 0; k < 5; k++) CHECK(checked[k] <= depths[k] * (1.0 + 1e-9) && lobes[k] <= lobes[4]);
    CHECK(tenths_chatter_svg(chatter, 0.0, 0.0, &svg) == TENTHS_OK && strncmp(svg, "<svg", 4) == 0);
    tenths_text_free(svg);
    CHECK(tenths_chatter_lobes(chatter, TENTHS_METRIC, 20000.0, 9000.0, NULL, NULL, NULL, 0, &count) == TENTHS_NO_STABILITY);
    n[0] = 0.0;
    CHECK(tenths_chatter_depths(chatter, TENTHS_METRIC, n, 1, checked) == TENTHS_NO_STABILITY && isnan(checked[0]));
    tenths_chatter_free(chatter);
    cut.teeth = 4;
    CHECK(tenths_chatter_new(TENTHS_METRIC, frequency, stiffness, damping, NULL, 1, &cut, &chatter) == TENTHS_NO_STABILITY);
    CHECK(chatter == NULL);
}

/* The compliance of one mode gives its critical depth, in inches too. */
static void response(void) {
    enum { POINTS = 1000 };
    static double frequency[POINTS], real[POINTS], imaginary[POINTS];
    tenths_chatter_cut cut = cut_of(2000.0 / 0.006894757293168361);
    tenths_chatter *chatter = NULL;
    tenths_stability stability;
    size_t k;
    for (k = 0; k < POINTS; k++) {
        double r, re, im, square, inch = 4.4482216152605 / 25.4;
        frequency[k] = 100.0 + (double)k;
        r = frequency[k] / 500.0;
        re = (1.0 - r * r) * 10000.0;
        im = 0.1 * r * 10000.0;
        square = re * re + im * im;
        real[k] = re / square * inch;
        imaginary[k] = -im / square * inch;
    }
    stability.struct_size = sizeof stability;
    CHECK(tenths_chatter_from_response(TENTHS_INCH, frequency, real, imaginary, NULL, NULL, POINTS, &cut, &chatter) == TENTHS_OK);
    CHECK(tenths_chatter_stability(chatter, TENTHS_INCH, &stability) == TENTHS_OK);
    CHECK(fabs(stability.critical_depth * 25.4 / 0.525 - 1.0) < 1e-3 && stability.response_count == POINTS);
    tenths_stability_clear(&stability);
    tenths_chatter_free(chatter);
    real[7] = NAN;
    CHECK(tenths_chatter_from_response(TENTHS_INCH, frequency, real, imaginary, NULL, NULL, POINTS, &cut, &chatter) == TENTHS_NO_STABILITY);
}

static void tools(void) {
    tenths_vibration_mode mode;
    double entry, exit;
    mode.struct_size = sizeof mode;
    CHECK(tenths_make_tool_mode(TENTHS_METRIC, 20.0, 100.0, 210.0, 7.85, 0.0, 0.02, &mode) == TENTHS_OK);
    CHECK(fabs(mode.frequency - 1447.157192) < 1e-5 && mode.estimated && mode.damping_ratio == 0.02);
    CHECK(tenths_side_cut_angles(TENTHS_METRIC, 10.0, 5.0, "down", &entry, &exit) == TENTHS_OK);
    CHECK(entry == 90.0 && exit == 180.0);
    CHECK(tenths_side_cut_angles(TENTHS_METRIC, 10.0, 10.5, "up", &entry, &exit) == TENTHS_NO_STABILITY && isnan(entry));
}

int main(void) {
    published();
    speeds();
    response();
    tools();
    return finish();
}
