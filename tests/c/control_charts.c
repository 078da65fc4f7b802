/* The figures of tests/published/control_charts.csv and chart_constants.csv through the C header. Run from the root of
 * the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 26, MOST = 200 };

static int split(char *line, char **fields, char between) {
    int count = 0;
    line[strcspn(line, "\r\n")] = '\0';
    for (;;) {
        char *end = strchr(line, between);
        if (count < FIELDS) fields[count] = line;
        count++;
        if (end == NULL) return count;
        *end = '\0';
        line = end + 1;
    }
}

static size_t numbers(const char *text, double *to) {
    size_t count = 0;
    char *end;
    for (;;) {
        double number = strtod(text, &end);
        if (end == text || count == MOST) return count;
        to[count++] = number;
        text = end;
    }
}

static double or_else(const char *text, double otherwise) { return *text ? atof(text) : otherwise; }

static tenths_status make_chart(char **f, tenths_control_chart *chart) {
    double data[MOST], sizes[MOST];
    size_t count = numbers(f[3], data), size_count = numbers(f[4], sizes);
    tenths_chart_options options;
    options.struct_size = sizeof options;
    if (tenths_chart_options_init(&options) != TENTHS_OK) return TENTHS_INTERNAL;
    options.centre = or_else(f[5], options.centre);
    options.sigma = or_else(f[6], options.sigma);
    options.constants = strcmp(f[7], "printed") == 0 ? TENTHS_CHART_OPTIONS_CONSTANTS_PRINTED : TENTHS_CHART_OPTIONS_CONSTANTS_EXACT;
    options.rules = strcmp(f[8], "limits") == 0 ? TENTHS_CHART_OPTIONS_RULES_LIMITS : TENTHS_CHART_OPTIONS_RULES_WESTERN_ELECTRIC;
    options.weight = or_else(f[9], options.weight);
    options.slack = or_else(f[10], options.slack);
    options.decision = or_else(f[11], options.decision);
    return tenths_make_control_chart(f[2], data, count, sizes, size_count, NULL, 0, &options, chart);
}

static double line_of(const char *line, double centre, double lower, double upper) {
    if (strcmp(line, "centre") == 0) return centre;
    return strcmp(line, "lower") == 0 ? lower : upper;
}

static size_t figure(const tenths_control_chart *chart, const char *quantity, double *got) {
    size_t k, count = 0;
    if (strncmp(quantity, "location.", 9) == 0) {
        got[0] = line_of(quantity + 9, chart->location_centre, chart->location_lower, chart->location_upper);
        return 1;
    }
    if (strncmp(quantity, "dispersion.", 11) == 0) {
        got[0] = line_of(quantity + 11, chart->dispersion_centre, chart->dispersion_lower, chart->dispersion_upper);
        return 1;
    }
    if (strncmp(quantity, "rule ", 5) == 0) {
        for (k = 0; k < chart->location_broken_count; k++) {
            if (chart->location_broken[k].rule == atoi(quantity + 5)) got[count++] = (double)chart->location_broken[k].point;
        }
        return count;
    }
    if (strncmp(quantity, "point ", 6) == 0) {
        got[0] = chart->location_points[atoi(quantity + 6) - 1].value;
        return 1;
    }
    got[0] = chart->phases[0].sigma;
    return 1;
}

static void published(void) {
    static char line[4000];
    char *fields[FIELDS];
    tenths_control_chart chart;
    int figures = 0;
    FILE *file = fopen("tests/published/control_charts.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    memset(&chart, 0, sizeof chart);
    chart.struct_size = sizeof chart;
    while (fgets(line, sizeof line, file) != NULL) {
        double expected[MOST], got[MOST];
        size_t k, count;
        int good;
        if (*line == '#') continue;
        if (strncmp(line, "chart;", 6) == 0) {
            tenths_control_chart_clear(&chart);
            CHECK(split(line, fields, ';') == 12 && make_chart(fields, &chart) == TENTHS_OK);
            continue;
        }
        good = split(line, fields, ';') == 6;
        count = numbers(fields[2], expected);
        good = good && figure(&chart, fields[1], got) == count;
        for (k = 0; good && k < count; k++) {
            good = fabs(got[k] - expected[k]) <= atof(fields[3]) * (1 + 1e-9) + 1e-12;
        }
        if (!good) printf("%s is not %s (%s)\n", fields[1], fields[2], fields[5]);
        CHECK(good);
        figures++;
    }
    tenths_control_chart_clear(&chart);
    fclose(file);
    CHECK(figures >= 50);
}

static void constants(void) {
    char line[600], *fields[FIELDS];
    tenths_chart_constants c;
    int rows = 0;
    FILE *file = fopen("tests/published/chart_constants.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    c.struct_size = sizeof c;
    while (fgets(line, sizeof line, file) != NULL) {
        double got[15];
        int k, good;
        if (*line == '#' || *line == 'n') continue;
        good = split(line, fields, ',') == 25;
        good = good && tenths_make_chart_constants((size_t)atoi(fields[0]), "exact", &c) == TENTHS_OK;
        got[0] = c.d2, got[1] = c.d3, got[2] = c.c4, got[3] = c.a, got[4] = c.a2, got[5] = c.a3, got[6] = c.b3;
        got[7] = c.b4, got[8] = c.b5, got[9] = c.b6, got[10] = c.d1_limit, got[11] = c.d2_limit;
        got[12] = c.d3_limit, got[13] = c.d4_limit, got[14] = c.e2;
        for (k = 0; good && k < 15; k++) good = fabs(got[k] - atof(fields[k + 1])) <= 1.01e-6;
        CHECK(good);
        good = tenths_make_chart_constants((size_t)atoi(fields[0]), "printed", &c) == TENTHS_OK;
        CHECK(good && c.d2 == atof(fields[16]) && c.d4_limit == atof(fields[24]));
        rows++;
    }
    fclose(file);
    CHECK(rows == 24);
}

static void refusals(void) {
    static const double readings[] = {1.0, 2.0, 4.0, 3.0};
    static const size_t phases[] = {0, 0, 1, 1}, wrong[] = {0, 0, 2, 2};
    double sizes[] = {2.0};
    char message[300];
    tenths_control_chart chart;
    memset(&chart, 0, sizeof chart);
    CHECK(tenths_make_control_chart("i_mr", readings, 4, NULL, 0, NULL, 0, NULL, &chart) == TENTHS_BAD_STRUCT_SIZE);
    chart.struct_size = sizeof chart;
    CHECK(tenths_make_control_chart("i_mr", readings, 4, NULL, 0, phases, 4, NULL, &chart) == TENTHS_OK);
    CHECK(chart.phases_count == 2 && chart.location_points_count == 4 && !chart.has_location_centre);
    tenths_control_chart_clear(&chart);
    CHECK(tenths_make_control_chart("xbar_r", readings, 4, sizes, 1, NULL, 0, NULL, &chart) == TENTHS_OK);
    CHECK(chart.location_points_count == 2 && chart.has_dispersion == 1);
    tenths_control_chart_clear(&chart);
    CHECK(tenths_make_control_chart("xbar", readings, 4, NULL, 0, NULL, 0, NULL, &chart) == TENTHS_NO_CONTROL_CHART);
    CHECK(tenths_make_control_chart("i_mr", NULL, 4, NULL, 0, NULL, 0, NULL, &chart) == TENTHS_NULL_POINTER);
    CHECK(tenths_make_control_chart("i_mr", readings, 4, NULL, 0, wrong, 4, NULL, &chart) == TENTHS_NO_CONTROL_CHART);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "not 2 after 0 at point 3") != NULL);
}

static void run_lengths(void) {
    double length = 0.0;
    /* 1/p, with scipy's normal law; CUSUM as in Montgomery, Introduction to Statistical Quality Control (from memory). */
    CHECK(tenths_average_run_length("i_mr", 1.0, 1, NULL, &length) == TENTHS_OK && fabs(length - 43.89468171854) < 1e-9);
    CHECK(tenths_average_run_length("cusum", 1.0, 1, NULL, &length) == TENTHS_OK && fabs(length - 10.4) < 0.05);
    CHECK(tenths_average_run_length("p", 1.0, 1, NULL, &length) == TENTHS_NO_CONTROL_CHART && isnan(length));
}

int main(void) {
    run_lengths();
    published();
    constants();
    refusals();
    return finish();
}
