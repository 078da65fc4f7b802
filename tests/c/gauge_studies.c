/* The figures of tests/published/gauge_studies.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 7, MOST = 400 };
enum call { STUDY, BIAS, LINEARITY, LINE, AGREEMENT };

/* Whatever the last line of a study asked for. */
static enum call call;
static tenths_gauge_study study;
static tenths_gauge_bias bias;
static tenths_gauge_linearity linearity;
static tenths_regression line_of_points;
static tenths_attribute_agreement agreement;

static int split(char *line, char **fields) {
    int count = 0;
    line[strcspn(line, "\r\n")] = '\0';
    for (;;) {
        char *end = strchr(line, ';');
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

static void clear(void) {
    tenths_gauge_study_clear(&study);
    tenths_gauge_bias_clear(&bias);
    tenths_gauge_linearity_clear(&linearity);
    tenths_regression_clear(&line_of_points);
    tenths_attribute_agreement_clear(&agreement);
}

static tenths_status make_agreement(const double *ratings, size_t count, const size_t *counts) {
    size_t codes[MOST], k;
    for (k = 0; k < count; k++) codes[k] = (size_t)ratings[k];
    call = AGREEMENT;
    return tenths_make_attribute_agreement(codes, count, counts[0], counts[1], counts[2], NULL, 0, 0.95, &agreement);
}

static tenths_status make(char **f) {
    double readings[MOST], references[MOST], given[3] = {1, 1, 1};
    size_t count = numbers(f[4], readings), counts[3], k;
    tenths_study_options options;
    numbers(f[5], references);
    numbers(f[3], given);
    for (k = 0; k < 3; k++) counts[k] = (size_t)given[k];
    clear();
    if (strcmp(f[2], "bias") == 0) {
        call = BIAS;
        return tenths_make_gauge_bias(readings, count, references[0], 0.95, &bias);
    }
    if (strcmp(f[2], "linearity") == 0) {
        call = LINEARITY;
        return tenths_make_gauge_linearity(references, readings, count, 0.95, &linearity);
    }
    if (strcmp(f[2], "regression") == 0) {
        call = LINE;
        return tenths_make_regression(references, readings, count, 0.95, &line_of_points);
    }
    if (strcmp(f[2], "agreement") == 0) return make_agreement(readings, count, counts);
    call = STUDY;
    options.struct_size = sizeof options;
    if (tenths_study_options_init(&options) != TENTHS_OK) return TENTHS_INTERNAL;
    if (strcmp(f[2], "average_range") == 0) options.method = TENTHS_STUDY_OPTIONS_METHOD_AVERAGE_RANGE;
    if (strcmp(f[2], "nested") == 0) options.method = TENTHS_STUDY_OPTIONS_METHOD_NESTED;
    options.pool_interaction = strcmp(f[6], "1") == 0;
    return tenths_make_gauge_study(readings, count, counts[0], counts[1], counts[2], &options, &study);
}

#define OF_LINE(line, quantity, got)                                                                                   \
    do {                                                                                                               \
        if (strcmp(quantity, "slope") == 0) return *(got) = (line).slope, 1;                                           \
        if (strcmp(quantity, "intercept") == 0) return *(got) = (line).intercept, 1;                                   \
        if (strcmp(quantity, "slope_error") == 0) return *(got) = (line).slope_error, 1;                               \
        if (strcmp(quantity, "intercept_error") == 0) return *(got) = (line).intercept_error, 1;                       \
        if (strcmp(quantity, "slope_t") == 0) return *(got) = (line).slope_t, 1;                                       \
        if (strcmp(quantity, "intercept_t") == 0) return *(got) = (line).intercept_t, 1;                               \
        if (strcmp(quantity, "residual_sd") == 0) return *(got) = (line).residual_sd, 1;                               \
        if (strcmp(quantity, "r_squared") == 0) return *(got) = (line).r_squared, 1;                                   \
    } while (0)

static int of_points(const char *quantity, double *got) {
    OF_LINE(line_of_points, quantity, got);
    return 0;
}

static int of_linearity(const char *q, double *got) {
    if (strncmp(q, "bias ", 5) == 0) return *got = linearity.biases[atoi(q + 5) - 1].bias, 1;
    if (strcmp(q, "slope") == 0) return *got = linearity.line_slope, 1;
    if (strcmp(q, "intercept") == 0) return *got = linearity.line_intercept, 1;
    if (strcmp(q, "slope_t") == 0) return *got = linearity.line_slope_t, 1;
    if (strcmp(q, "intercept_t") == 0) return *got = linearity.line_intercept_t, 1;
    if (strcmp(q, "residual_sd") == 0) return *got = linearity.line_residual_sd, 1;
    return *got = linearity.line_r_squared, strcmp(q, "r_squared") == 0;
}

static int of_bias(const char *q, double *got) {
    if (strcmp(q, "bias") == 0) return *got = bias.bias, 1;
    if (strcmp(q, "sd") == 0) return *got = bias.sd, 1;
    if (strcmp(q, "standard_error") == 0) return *got = bias.standard_error, 1;
    if (strcmp(q, "t") == 0) return *got = bias.t, 1;
    if (strcmp(q, "p") == 0) return *got = bias.p, 1;
    return *got = bias.interval[strcmp(q, "interval 1") != 0], bias.interval_count == 2;
}

static int component(const char *what, double variance, double sd, double of_study, double of_variance, double *got) {
    if (strcmp(what, "variance") == 0) return *got = variance, 1;
    if (strcmp(what, "sd") == 0) return *got = sd, 1;
    if (strcmp(what, "percent_of_study") == 0) return *got = of_study, 1;
    return *got = of_variance, strcmp(what, "percent_of_variance") == 0;
}
#define COMPONENT(name)                                                                                                \
    component(what, study.name##_variance, study.name##_sd, study.name##_percent_of_study,                             \
              study.name##_percent_of_variance, got)

static int of_study(char *quantity, double *got) {
    static const char *const sources[] = {"part", "appraiser", "interaction", "repeatability", "total"};
    char *what = strchr(quantity, '.');
    size_t k;
    if (what == NULL) return *got = (double)study.distinct_categories, study.has_distinct_categories;
    *what++ = '\0';
    for (k = 0; k < study.table_count; k++) {
        const tenths_variance_row *row = &study.table[k];
        if (strcmp(sources[row->source], quantity) != 0) continue;
        if (strcmp(what, "ss") == 0) return *got = row->ss, 1;
        if (strcmp(what, "ms") == 0) return *got = row->ms, 1;
        if (strcmp(what, "df") == 0) return *got = row->df, 1;
        if (strcmp(what, "f") == 0) return *got = row->f, row->has_f;
        if (strcmp(what, "p") == 0) return *got = row->p, row->has_p;
    }
    if (strcmp(quantity, "repeatability") == 0) return COMPONENT(repeatability);
    if (strcmp(quantity, "appraiser") == 0) return COMPONENT(appraiser);
    if (strcmp(quantity, "interaction") == 0) return COMPONENT(interaction);
    if (strcmp(quantity, "reproducibility") == 0) return COMPONENT(reproducibility);
    if (strcmp(quantity, "gauge") == 0) return COMPONENT(gauge);
    if (strcmp(quantity, "part") == 0) return COMPONENT(part);
    return COMPONENT(total);
}

static int figure(char *quantity, double *got) {
    switch (call) {
    case STUDY: return of_study(quantity, got);
    case BIAS: return of_bias(quantity, got);
    case LINEARITY: return of_linearity(quantity, got);
    case LINE: return of_points(quantity, got);
    default: return *got = *quantity == 'a' ? agreement.all_kappa : agreement.pairs[0].kappa, 1;
    }
}

static void published(void) {
    static char line[4000];
    char *fields[FIELDS];
    int figures = 0;
    FILE *file = fopen("tests/published/gauge_studies.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        double got = NAN;
        int good;
        if (*line == '#') continue;
        if (strncmp(line, "study;", 6) == 0) {
            CHECK(split(line, fields) == 7 && make(fields) == TENTHS_OK);
            continue;
        }
        good = split(line, fields) == 6 && figure(fields[1], &got);
        good = good && fabs(got - atof(fields[2])) <= atof(fields[3]) * (1 + 1e-9);
        if (!good) printf("%s is %.17g, not %s (%s)\n", fields[1], got, fields[2], fields[5]);
        CHECK(good);
        figures++;
    }
    fclose(file);
    CHECK(figures >= 120);
    clear();
}

static void batch(void) {
    /* Two parts by two appraisers in two trials, twice. */
    static const double readings[] = {1.0, 1.1, 1.3, 1.2, 2.0, 2.1, 2.1, 2.3, 1.0, 1.1, 1.3, 1.2, 2.0, 2.1, 2.1, 2.3};
    double figures[2 * TENTHS_STUDY_FIGURES];
    CHECK(tenths_gauge_studies(readings, 16, 2, 2, 2, NULL, figures, TENTHS_STUDY_FIGURES) == TENTHS_OK);
    CHECK(memcmp(figures, figures + TENTHS_STUDY_FIGURES, sizeof figures / 2) == 0);
    CHECK(tenths_make_gauge_study(readings, 8, 2, 2, 2, NULL, &study) == TENTHS_OK);
    CHECK(figures[0] == study.mean && figures[1] == study.table[0].ss && figures[12] > 0 && figures[19] == study.gauge_variance);
    clear();
    CHECK(tenths_gauge_studies(readings, 15, 2, 2, 2, NULL, figures, TENTHS_STUDY_FIGURES) == TENTHS_NO_GAUGE_STUDY);
    CHECK(isnan(figures[0]));
    CHECK(tenths_gauge_studies(readings, 16, 2, 2, 2, NULL, figures, 23) == TENTHS_BAD_COUNT);
}

static void refusals(void) {
    static const double same[] = {3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0}, drift[] = {1.0, 1.1, 1.15, 1.3, 1.32, 1.5};
    char message[300];
    tenths_gauge_stability stability;
    CHECK(tenths_make_gauge_study(same, 8, 2, 2, 2, NULL, &study) == TENTHS_NO_GAUGE_STUDY);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "do not vary") != NULL);
    CHECK(tenths_make_gauge_study(same, 8, 2, 4, 1, NULL, &study) == TENTHS_NO_GAUGE_STUDY);
    CHECK(tenths_make_gauge_study(NULL, 8, 2, 2, 2, NULL, &study) == TENTHS_NULL_POINTER);
    memset(&stability, 0, sizeof stability);
    stability.struct_size = sizeof stability;
    CHECK(tenths_make_gauge_stability(drift, 6, NULL, 0, NULL, 0.95, &stability) == TENTHS_OK);
    CHECK(stability.stable == 0 && stability.drift_slope_p < 0.01 && stability.chart_location_points_count == 6);
    tenths_gauge_stability_clear(&stability);
}

/* AIAG, Measurement Systems Analysis, 4th ed., chapter III C, signal detection: the ends of each zone (from memory). */
static void zone_of_an_attribute_gauge(void) {
    static const double sizes[] = {0.566152, 0.446697, 0.5, 0.46, 0.542704, 0.55, 0.470832};
    static const double accepted[] = {0.0, 0.0, 1.0, 0.6, 1.0, 0.4, 1.0};
    tenths_attribute_zone zone;
    memset(&zone, 0, sizeof zone);
    zone.struct_size = sizeof zone;
    CHECK(tenths_make_attribute_zone(sizes, accepted, 7, 0.45, 0.55, &zone) == TENTHS_OK);
    CHECK(zone.upper_zone_count == 2 && zone.upper_zone[0] == 0.542704 && zone.upper_zone[1] == 0.566152);
    CHECK(fabs(zone.width - 0.0237915) < 1e-12 && zone.undecided == 2 && zone.has_percent_of_tolerance);
    tenths_attribute_zone_clear(&zone);
    CHECK(tenths_make_attribute_zone(sizes, accepted, 7, NAN, 0.55, &zone) == TENTHS_NO_GAUGE_STUDY);
    CHECK(tenths_make_attribute_zone(sizes, accepted, 7, NAN, NAN, &zone) == TENTHS_OK);
    CHECK(zone.lower_zone_count == 2 && zone.lower_zone[1] == 0.470832 && !zone.has_percent_of_tolerance);
    tenths_attribute_zone_clear(&zone);
}

int main(void) {
    study.struct_size = sizeof study;
    bias.struct_size = sizeof bias;
    linearity.struct_size = sizeof linearity;
    line_of_points.struct_size = sizeof line_of_points;
    agreement.struct_size = sizeof agreement;
    published();
    batch();
    refusals();
    zone_of_an_attribute_gauge();
    return finish();
}
