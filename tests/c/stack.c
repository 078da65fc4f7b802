/* Tolerance stacks through the C header: the figures of tests/published/stacks.json, with their sources there, and
 * samples in blocks. Run from the root of the project. */
#include "check.h"
#include "stacks.h"
#include "tenths.h"
#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_PARTS = 8, VALUES = 200000 };
static const double PI = 3.14159265358979323846;

static int near(double got, double expected, double relative) {
    return fabs(got - expected) <= relative * fabs(expected) + 1e-13;
}

static int64_t picometres(double size, tenths_units units) {
    return (int64_t)llround(size * (units == TENTHS_INCH ? 25400000000.0 : 1000000000.0));
}

static tenths_distribution law_of(const struct part *part) {
    tenths_distribution law;
    law.struct_size = sizeof law;
    CHECK(tenths_distribution_init(part->law, &law) == TENTHS_OK);
    law.first = part->first;
    law.second = part->second;
    return law;
}

static tenths_stack *stack_of(const struct published_stack *given) {
    tenths_stack *stack = NULL;
    size_t k;
    CHECK(tenths_stack_new(given->units, &stack) == TENTHS_OK);
    for (k = 0; k < given->part_count; k++) {
        const struct part *part = &given->parts[k];
        tenths_distribution law = law_of(part);
        tenths_contributor one;
        one.struct_size = sizeof one;
        CHECK(tenths_contributor_init(&one) == TENTHS_OK);
        one.name = part->name;
        one.nominal = part->nominal;
        one.plus = part->plus;
        one.minus = part->minus;
        one.sensitivity = part->sensitivity;
        one.distribution = &law;
        CHECK(tenths_stack_add(stack, &one) == TENTHS_OK);
    }
    CHECK(tenths_stack_count(stack) == given->part_count);
    return stack;
}

static int worst_case_holds(const tenths_stack *stack, const struct published_stack *given, const struct figure *f) {
    tenths_limits_out limits;
    int64_t expected = picometres(f->value, given->units);
    limits.struct_size = sizeof limits;
    if (tenths_stack_worst_case(stack, &limits) != TENTHS_OK) return 0;
    if (strcmp(f->name, "nominal") == 0) return limits.nominal == expected;
    if (strcmp(f->name, "lower") == 0) return limits.lower == expected;
    if (strcmp(f->name, "upper") == 0) return limits.upper == expected;
    return limits.upper - limits.lower == 2 * expected;
}

static int band_holds(const tenths_stack *stack, const struct published_stack *given, const struct figure *f) {
    tenths_band band;
    double shares[MOST_PARTS];
    size_t k;
    tenths_status status;
    band.struct_size = sizeof band;
    for (k = 0; k < given->part_count; k++) shares[k] = given->parts[k].share;
    if (strncmp(f->name, "rss", 3) == 0) status = tenths_stack_rss(stack, &band);
    else if (strncmp(f->name, "inflated", 8) == 0) status = tenths_stack_inflated_rss(stack, 1.5, &band);
    else if (strncmp(f->name, "spotts", 6) == 0) status = tenths_stack_spotts(stack, &band);
    else status = tenths_stack_estimated_mean_shift(stack, shares, given->part_count, &band);
    return status == TENTHS_OK && near(band.tolerance, f->value, 1e-8) && band.upper == band.mean + band.tolerance
           && band.units == (int32_t)given->units;
}

static int percent_holds(const tenths_stack *stack, const struct published_stack *given, const struct figure *f) {
    double rss[MOST_PARTS], worst_case[MOST_PARTS];
    if (tenths_stack_contributions(stack, rss, NULL, worst_case, given->part_count) != TENTHS_OK) return 0;
    return near((f->name[0] == 'r' ? rss : worst_case)[(size_t)f->at], f->value, 1e-8);
}

/* Of the name after the underscore: centred, dynamic or static. */
static int spread_holds(const tenths_stack *stack, const struct figure *f) {
    const char *how = strstr(f->name, "_");
    int32_t shift = strcmp(how, "_centred") == 0 ? TENTHS_CENTRED : strcmp(how, "_dynamic") == 0 ? TENTHS_DYNAMIC : TENTHS_STATIC;
    tenths_spread_within spread;
    spread.struct_size = sizeof spread;
    if (strcmp(f->name, "static_shift") == 0) shift = TENTHS_STATIC;
    if (tenths_stack_spread(stack, shift, f->at, INFINITY, &spread) != TENTHS_OK || spread.fraction_above != 0.0) return 0;
    if (strcmp(f->name, "static_shift") == 0) return near(spread.spread_shift, f->value, 1e-8);
    if (f->name[0] == 's') return near(spread.spread_sigma, f->value, 1e-8);
    if (f->name[0] == 'z') return near(spread.z_lower, f->value, 1e-8);
    return near(1e6 * spread.fraction_below, f->value, 1e-6);
}

static int stack_figure_holds(const tenths_stack *stack, const struct published_stack *given, const struct figure *f) {
    tenths_band band;
    band.struct_size = sizeof band;
    if (strstr(f->name, "_percent") != NULL) return percent_holds(stack, given, f);
    if (strcmp(f->name, "nominal") == 0 || strcmp(f->name, "lower") == 0 || strcmp(f->name, "upper") == 0
        || strcmp(f->name, "worst_case_tolerance") == 0)
        return worst_case_holds(stack, given, f);
    if (strcmp(f->name, "mean") == 0)
        return tenths_stack_rss(stack, &band) == TENTHS_OK && near(band.mean, f->value, 1e-8);
    if (strstr(f->name, "_tolerance") != NULL || strcmp(f->name, "estimated_mean_shift") == 0)
        return band_holds(stack, given, f);
    return spread_holds(stack, f);
}

/* Exact moments, and those of a sample within five of its standard errors. */
static int law_figure_holds(const tenths_stack *stack, const struct figure *f) {
    tenths_statistics exact;
    tenths_summary summary;
    tenths_sampling sampling;
    tenths_sample *sample = NULL;
    double error = 5.0 * sqrt(f->value * (1.0 - f->value) / VALUES);
    exact.struct_size = sizeof exact;
    summary.struct_size = sizeof summary;
    sampling.struct_size = sizeof sampling;
    if (tenths_stack_statistics(stack, &exact) != TENTHS_OK) return 0;
    if (tenths_sampling_init(VALUES, 1, &sampling) != TENTHS_OK) return 0;
    if (strcmp(f->name, "above") == 0) sampling.upper = f->at;
    if (strcmp(f->name, "below") == 0) sampling.lower = f->at;
    if (tenths_stack_sample(stack, &sampling, &sample) != TENTHS_OK) return 0;
    if (tenths_sample_summary(sample, &summary) != TENTHS_OK) return 0;
    tenths_sample_free(sample);
    if (strcmp(f->name, "above") == 0) return fabs(summary.fraction_above - f->value) < error && summary.fraction_below == 0.0;
    if (strcmp(f->name, "below") == 0) return fabs(summary.fraction_below - f->value) < error && summary.fraction_above == 0.0;
    if (strcmp(f->name, "mean") == 0)
        return near(exact.mean, f->value, 1e-8) && fabs(summary.mean - f->value) < 5.0 * summary.mean_error;
    if (strcmp(f->name, "sigma") == 0 || strcmp(f->name, "variance") == 0) {
        double sigma = f->name[0] == 's' ? f->value : sqrt(f->value);
        return near(exact.sigma, sigma, 1e-8) && fabs(summary.sigma - sigma) < 5.0 * summary.sigma_error;
    }
    /* Of a normal sample the errors are √(6 / n) and √(24 / n); these laws have shorter tails. */
    if (strcmp(f->name, "skewness") == 0)
        return near(exact.skewness, f->value, 1e-8) && fabs(summary.skewness - f->value) < 5.0 * sqrt(6.0 / VALUES);
    if (strcmp(f->name, "kurtosis") == 0)
        return near(exact.kurtosis, f->value, 1e-8) && fabs(summary.kurtosis - f->value) < 5.0 * sqrt(24.0 / VALUES);
    return 0;
}

static double clutch(const double *x, void *context) {
    (void)context;
    return acos((x[0] + x[1]) / (x[2] - x[1])) * 180.0 / PI;
}

static double dovetail(const double *x, void *context) {
    (void)context;
    return x[0] + x[1] * (1.0 + 1.0 / tan(x[2] * PI / 360.0));
}

static double chord(const double *x, void *context) {
    (void)context;
    return x[0] * sin(x[1] * PI / 360.0);
}

static double radius(const double *x, void *context) {
    ++*(int *)context;
    return x[0] * x[0] / (8.0 * x[1]) + 0.5 * x[1];
}

static tenths_propagation *propagation_of(const struct published_stack *given, int *calls) {
    tenths_input inputs[MOST_PARTS];
    tenths_propagation *propagation = NULL;
    tenths_function function = NULL;
    size_t k;
    if (strcmp(given->name, "acos((a + c) / (e - c))") == 0) function = clutch;
    if (strcmp(given->name, "w + d (1 + cot(angle / 2))") == 0) function = dovetail;
    if (strcmp(given->name, "d sin(angle / 2)") == 0) function = chord;
    if (strcmp(given->name, "c\xc2\xb2 / (8 h) + h / 2") == 0) function = radius;
    for (k = 0; k < given->part_count; k++) {
        inputs[k].struct_size = sizeof *inputs;
        CHECK(tenths_input_init(&inputs[k]) == TENTHS_OK);
        inputs[k].name = given->parts[k].name;
        inputs[k].nominal = given->parts[k].nominal;
        inputs[k].plus = given->parts[k].plus;
        inputs[k].minus = given->parts[k].minus;
    }
    CHECK(tenths_propagate(function, calls, inputs, given->part_count, &propagation) == TENTHS_OK);
    CHECK(tenths_propagation_inputs(propagation) == given->part_count);
    return propagation;
}

static int function_figure_holds(const tenths_propagation *propagation, const struct published_stack *given, const struct figure *f) {
    double value, derivative = 0.0, contribution = 0.0;
    size_t k, count = given->part_count, at = (size_t)f->at;
    tenths_extremes extremes;
    tenths_moments moments;
    int good;
    extremes.struct_size = sizeof extremes;
    moments.struct_size = sizeof moments;
    good = tenths_propagation_nominal(propagation, &value) == TENTHS_OK
           && tenths_propagation_extremes(propagation, &extremes) == TENTHS_OK
           && tenths_propagation_moments(propagation, &moments) == TENTHS_OK;
    good = good && extremes.at_lower_count == count && extremes.at_upper_count == count && extremes.monotonic_count == count;
    good = good && moments.derivatives_count == count && moments.contributions_count == count && moments.derivative_errors_count == count;
    for (k = 0; good && k < count; k++) {
        double error = moments.derivative_errors[k];
        good = error >= 0.0 && error < 1e-8 * fabs(moments.derivatives[k]) && extremes.monotonic[k]
               && extremes.at_lower[k] != extremes.at_upper[k] && strcmp(extremes.at_lower_names[k], given->parts[k].name) == 0
               && strcmp(moments.contributions_names[k], given->parts[k].name) == 0;
    }
    if (good && at < count) {
        derivative = moments.derivatives[at];
        contribution = moments.contributions[at];
    }
    tenths_extremes_clear(&extremes);
    tenths_moments_clear(&moments);
    if (!good || extremes.at_lower || moments.derivatives_names || moments.derivatives_count) return 0;
    if (strcmp(f->name, "nominal") == 0) return near(value, f->value, 1e-12);
    if (strcmp(f->name, "lower") == 0) return near(extremes.lower, f->value, 1e-11);
    if (strcmp(f->name, "upper") == 0) return near(extremes.upper, f->value, 1e-11);
    if (strcmp(f->name, "derivatives") == 0) return near(derivative, f->value, 1e-7);
    if (strcmp(f->name, "contributions") == 0) return near(contribution, f->value, 1e-6);
    if (strcmp(f->name, "three_first_order_sigma") == 0) return near(3.0 * moments.first_order_sigma, f->value, 1e-7);
    if (strcmp(f->name, "second_order_mean") == 0 || strcmp(f->name, "mean") == 0) return near(moments.mean, f->value, 1e-6);
    if (strcmp(f->name, "sigma") == 0) return near(moments.sigma, f->value, 1e-4);
    return 0;
}

static void published(void) {
    size_t k, j;
    int calls = 0;
    for (k = 0; k < sizeof published_stacks / sizeof *published_stacks; k++) {
        const struct published_stack *given = &published_stacks[k];
        int is_function = strcmp(given->sort, "function") == 0, is_law = strcmp(given->sort, "law") == 0;
        tenths_stack *stack = is_function ? NULL : stack_of(given);
        tenths_propagation *propagation = is_function ? propagation_of(given, &calls) : NULL;
        for (j = 0; j < given->figure_count; j++) {
            const struct figure *f = &given->figures[j];
            int good = is_function ? function_figure_holds(propagation, given, f)
                       : is_law    ? law_figure_holds(stack, f)
                                   : stack_figure_holds(stack, given, f);
            if (!good) printf("%s: %s at %g: %.17g\n", given->name, f->name, f->at, f->value);
            CHECK(good);
        }
        tenths_stack_free(stack);
        tenths_propagation_free(propagation);
    }
    CHECK(k >= 20 && calls > 0);
}

/* A chain of every way to draw: normal, trapezoid, beta, and measured sizes. */
static tenths_stack *mixed(void) {
    static const double sizes[] = {1.0, 1.25, 1.5};
    static const int32_t laws[] = {TENTHS_NORMAL, TENTHS_TRAPEZOID, TENTHS_BETA, TENTHS_MEASURED};
    tenths_stack *stack = NULL;
    tenths_distribution law;
    size_t k;
    CHECK(tenths_stack_new(TENTHS_METRIC, &stack) == TENTHS_OK);
    for (k = 0; k < 4; k++) {
        law.struct_size = sizeof law;
        CHECK(tenths_distribution_init(laws[k], &law) == TENTHS_OK);
        if (laws[k] == TENTHS_MEASURED) law.values = sizes, law.count = 3;
        CHECK(tenths_stack_add_text(stack, "part", "1..1.5 mm", k == 1 ? -1.0 : 1.0, &law) == TENTHS_OK);
    }
    return stack;
}

static int same_bits(const tenths_sample *one, const tenths_sample *other) {
    tenths_summary a, b;
    static double mine[VALUES], theirs[VALUES];
    /* What padding there is must not differ. */
    memset(&a, 0, sizeof a);
    memset(&b, 0, sizeof b);
    a.struct_size = b.struct_size = sizeof a;
    if (tenths_sample_summary(one, &a) != TENTHS_OK || tenths_sample_summary(other, &b) != TENTHS_OK) return 0;
    if (a.kept != b.kept || a.kept > VALUES || memcmp(&a, &b, sizeof a) != 0) return 0;
    if (tenths_sample_values(one, 0, (size_t)a.kept, mine) != TENTHS_OK) return 0;
    if (tenths_sample_values(other, 0, (size_t)b.kept, theirs) != TENTHS_OK) return 0;
    return memcmp(mine, theirs, (size_t)a.kept * sizeof *mine) == 0;
}

/* Blocks as they come back from bytes. */
static tenths_blocks *sent(tenths_blocks *blocks) {
    tenths_blocks *back = NULL;
    size_t length = 0;
    uint8_t *bytes;
    CHECK(tenths_blocks_to_bytes(blocks, NULL, 0, &length) == TENTHS_OK && length > 80);
    bytes = (uint8_t *)malloc(length);
    if (bytes == NULL) abort();
    CHECK(tenths_blocks_to_bytes(blocks, bytes, length - 1, NULL) == TENTHS_BAD_LENGTH);
    CHECK(tenths_blocks_to_bytes(blocks, bytes, length, NULL) == TENTHS_OK);
    CHECK(tenths_blocks_from_bytes(bytes, length - 8, &back) == TENTHS_BAD_BLOCKS && back == NULL);
    bytes[length / 2] ^= 4;
    CHECK(tenths_blocks_from_bytes(bytes, length, &back) == TENTHS_BAD_BLOCKS && back == NULL);
    bytes[length / 2] ^= 4;
    CHECK(tenths_blocks_from_bytes(bytes, length, &back) == TENTHS_OK);
    free(bytes);
    tenths_blocks_free(blocks);
    return back;
}

/* The same bits for one thread and two, and for blocks in any order that were bytes in between. */
static void blocks(void) {
    static const uint64_t portions[3][2] = {{4, 3}, {0, 1}, {1, 3}};
    tenths_stack *stack = mixed();
    tenths_sampling sampling;
    tenths_blocks *parts[3] = {NULL, NULL, NULL}, *none = NULL;
    tenths_sample *one = NULL, *two = NULL, *folded = NULL;
    uint64_t count = 0, first = 0;
    size_t k;
    sampling.struct_size = sizeof sampling;
    CHECK(tenths_sampling_init(100000, 42, &sampling) == TENTHS_OK);
    CHECK(tenths_sampling_blocks(&sampling, &count) == TENTHS_OK && count == 7);
    sampling.lower = 2.0;
    sampling.upper = 3.0;
    sampling.threads = 1;
    CHECK(tenths_stack_sample(stack, &sampling, &one) == TENTHS_OK);
    sampling.threads = 2;
    CHECK(tenths_stack_sample(stack, &sampling, &two) == TENTHS_OK);
    CHECK(same_bits(one, two));
    for (k = 0; k < 3; k++) {
        CHECK(tenths_stack_sample_blocks(stack, &sampling, portions[k][0], portions[k][1], &parts[k]) == TENTHS_OK);
        parts[k] = sent(parts[k]);
        CHECK(tenths_blocks_range(parts[k], &first, &count) == TENTHS_OK && first == portions[k][0] && count == portions[k][1]);
    }
    CHECK(tenths_sample_fold((const tenths_blocks *const *)parts, 2, &folded) == TENTHS_BAD_SAMPLING && folded == NULL);
    CHECK(tenths_sample_fold((const tenths_blocks *const *)parts, 3, &folded) == TENTHS_OK);
    CHECK(same_bits(one, folded));
    sampling.seed++;
    tenths_sample_free(two);
    CHECK(tenths_stack_sample(stack, &sampling, &two) == TENTHS_OK && !same_bits(one, two));
    CHECK(tenths_stack_sample_blocks(stack, &sampling, 6, 2, &none) == TENTHS_BAD_SAMPLING && none == NULL);
    for (k = 0; k < 3; k++) tenths_blocks_free(parts[k]);
    tenths_sample_free(one);
    tenths_sample_free(two);
    tenths_sample_free(folded);
    tenths_stack_free(stack);
}

/* Percentiles, histogram and intervals of a known sample: measured sizes alone, drawn a third each. */
static void told(void) {
    static const double sizes[] = {1.0, 2.0, 4.0};
    double percents[] = {0.0, 50.0, 100.0}, values[3], errors[3], ends[4];
    uint64_t counts[3];
    tenths_distribution law;
    tenths_stack *stack = NULL;
    tenths_sampling sampling;
    tenths_sample *sample = NULL;
    tenths_fraction fraction, wider;
    law.struct_size = sizeof law;
    sampling.struct_size = sizeof sampling;
    fraction.struct_size = wider.struct_size = sizeof fraction;
    CHECK(tenths_distribution_init(TENTHS_MEASURED, &law) == TENTHS_OK);
    law.values = sizes;
    law.count = 3;
    CHECK(tenths_stack_new(TENTHS_INCH, &stack) == TENTHS_OK);
    CHECK(tenths_stack_add_text(stack, "shim", "1..4 in", 1.0, &law) == TENTHS_OK);
    CHECK(tenths_sampling_init(30001, 5, &sampling) == TENTHS_OK);
    sampling.upper = 3.0;
    CHECK(tenths_stack_sample(stack, &sampling, &sample) == TENTHS_OK);
    CHECK(tenths_sample_percentiles(sample, percents, 3, values, errors, NULL) == TENTHS_OK);
    CHECK(values[0] == 1.0 && values[1] == 2.0 && values[2] == 4.0 && errors[1] == 0.0);
    CHECK(tenths_sample_histogram(sample, 3, counts, ends) == TENTHS_OK);
    CHECK(ends[0] == 1.0 && ends[1] == 2.0 && ends[3] == 4.0 && counts[0] + counts[1] + counts[2] == 30001);
    /* A third each, within five standard errors of 82. */
    CHECK(counts[0] > 9590 && counts[0] < 10410 && counts[1] > 9590 && counts[1] < 10410);
    CHECK(tenths_sample_fraction_out(sample, 0.95, &fraction) == TENTHS_OK && fraction.value == (double)counts[2] / 30001);
    CHECK(tenths_sample_fraction_out(sample, 0.999, &wider) == TENTHS_OK && wider.lower < fraction.lower && wider.upper > fraction.upper);
    CHECK(tenths_sample_fraction_out(sample, 1.0, &wider) == TENTHS_BAD_SAMPLING && isnan(wider.value));
    percents[2] = 100.5;
    CHECK(tenths_sample_percentiles(sample, percents, 3, values, NULL, NULL) == TENTHS_BAD_SAMPLING && isnan(values[0]));
    CHECK(tenths_sample_values(sample, 30000, 2, values) == TENTHS_BAD_INDEX && isnan(values[0]));
    CHECK(tenths_sample_values(sample, 30000, 1, values) == TENTHS_OK);
    tenths_sample_free(sample);
    tenths_stack_free(stack);
}

/* The variance of a - b with variances v and a covariance c is 2 v - 2 c. */
static void correlations(void) {
    const double matrix[] = {0.0004, 0.0003, 0.0003, 0.0004}, impossible[] = {0.0004, 0.0005, 0.0005, 0.0004};
    const size_t numbers[] = {0, 1};
    tenths_stack *stack = NULL;
    tenths_statistics statistics;
    int64_t tolerance = 0;
    size_t number = 9;
    statistics.struct_size = sizeof statistics;
    CHECK(tenths_stack_new(TENTHS_METRIC, &stack) == TENTHS_OK);
    CHECK(tenths_stack_statistics(stack, &statistics) == TENTHS_NO_CONTRIBUTORS && isnan(statistics.mean));
    CHECK(tenths_stack_add_text(stack, "a", "10 \xc2\xb1.06 mm", 1.0, NULL) == TENTHS_OK);
    CHECK(tenths_stack_add_text(stack, "b", "9 \xc2\xb1.06 mm", -1.0, NULL) == TENTHS_OK);
    CHECK(tenths_stack_find(stack, "b", &number) == TENTHS_OK && number == 1);
    CHECK(tenths_stack_find(stack, "c", &number) == TENTHS_UNKNOWN_NAME);
    /* Half the covariance of two standard deviations of 0.02. */
    CHECK(tenths_stack_correlate(stack, 0, 1, 0.5) == TENTHS_OK);
    CHECK(tenths_stack_statistics(stack, &statistics) == TENTHS_OK && near(statistics.sigma, 0.02, 1e-12));
    CHECK(tenths_stack_covariance(stack, numbers, 2, impossible) == TENTHS_NOT_POSITIVE);
    CHECK(tenths_stack_covariance(stack, numbers, 2, matrix) == TENTHS_OK);
    CHECK(tenths_stack_statistics(stack, &statistics) == TENTHS_OK && near(statistics.sigma, sqrt(0.0002), 1e-12));
    CHECK(tenths_stack_correlate(stack, 0, 2, 0.5) == TENTHS_UNKNOWN_NAME);
    CHECK(tenths_stack_correlate(stack, 0, 1, 1.5) == TENTHS_NOT_POSITIVE);
    /* By hand: of 0.9 to 1.1 the other takes 0.12, so that 0.08 are left; by squares √(0.2² - 0.12²) = 0.16. */
    CHECK(tenths_stack_greatest_tolerance(stack, 0, "0.9..1.1 mm", TENTHS_WORST_CASE, &tolerance) == TENTHS_OK && tolerance == 80000000);
    CHECK(tenths_stack_greatest_tolerance(stack, 0, "0.9..1.1 mm", TENTHS_RSS, &tolerance) == TENTHS_OK && llabs(tolerance - 160000000) < 10);
    CHECK(tenths_stack_greatest_tolerance(stack, 0, "0.99..1.01 mm", TENTHS_RSS, &tolerance) == TENTHS_OK && tolerance == -1);
    CHECK(tenths_stack_greatest_tolerance(stack, 0, "0.9..1.1 mm", 2, &tolerance) == TENTHS_BAD_CHOICE && tolerance == -1);
    /* 0.04 are left to either side of its middle, and a picometre more above. */
    CHECK(tenths_stack_greatest_tolerance(stack, 0, "0.9..1.100000001 mm", TENTHS_WORST_CASE, &tolerance) == TENTHS_OK && tolerance == 80000000);
    tenths_stack_free(stack);
}

/* π d n / 12 of 0.5 in at 1500 rev/min, by hand; the extremes are those of the diameter. */
static void formulas(void) {
    tenths_input inputs[2];
    tenths_propagation *propagation = NULL;
    tenths_extremes extremes;
    tenths_sampling sampling;
    tenths_sample *one = NULL, *two = NULL;
    double value = 0.0;
    size_t k;
    extremes.struct_size = sizeof extremes;
    sampling.struct_size = sizeof sampling;
    for (k = 0; k < 2; k++) {
        inputs[k].struct_size = sizeof *inputs;
        CHECK(tenths_input_init(&inputs[k]) == TENTHS_OK);
    }
    inputs[0].name = "spindle_speed";
    inputs[0].nominal = 1500.0;
    inputs[1].name = "diameter";
    inputs[1].nominal = 0.5;
    inputs[1].plus = 0.001;
    inputs[1].minus = -0.002;
    CHECK(tenths_formula_propagate("surface_speed", TENTHS_INCH, NULL, inputs, 2, &propagation) == TENTHS_OK);
    CHECK(tenths_propagation_nominal(propagation, &value) == TENTHS_OK && near(value, PI * 0.5 * 1500.0 / 12.0, 1e-14));
    CHECK(tenths_propagation_extremes(propagation, &extremes) == TENTHS_OK);
    CHECK(near(extremes.lower, PI * 0.498 * 125.0, 1e-14) && near(extremes.upper, PI * 0.501 * 125.0, 1e-14));
    /* The spindle speed does not vary. */
    CHECK(extremes.at_lower_count == 1 && strcmp(extremes.at_lower_names[0], "diameter") == 0 && extremes.at_lower[0] == 0.498);
    tenths_extremes_clear(&extremes);
    CHECK(tenths_propagation_extremes(NULL, &extremes) == TENTHS_NULL_POINTER && isnan(extremes.lower) && !extremes.at_lower);
    CHECK(tenths_sampling_init(40000, 3, &sampling) == TENTHS_OK);
    CHECK(tenths_propagation_sample(propagation, &sampling, &one) == TENTHS_OK);
    sampling.threads = 1;
    CHECK(tenths_propagation_sample(propagation, &sampling, &two) == TENTHS_OK && same_bits(one, two));
    tenths_sample_free(one);
    tenths_sample_free(two);
    tenths_propagation_free(propagation);
    inputs[0].name = "speed";
    CHECK(tenths_formula_propagate("surface_speed", TENTHS_INCH, NULL, inputs, 2, &propagation) == TENTHS_UNKNOWN_NAME && propagation == NULL);
    inputs[0].name = "diameter";
    CHECK(tenths_formula_propagate("surface_speed", TENTHS_INCH, NULL, inputs, 2, &propagation) == TENTHS_AMBIGUOUS_NAME);
    CHECK(tenths_formula_propagate("surface_speed", TENTHS_INCH, NULL, inputs, 1, &propagation) == TENTHS_BAD_FUNCTION);
    CHECK(tenths_formula_propagate("surface_sped", TENTHS_INCH, NULL, inputs, 1, &propagation) == TENTHS_UNKNOWN_FORMULA);
}

/* The address of errno is another one in every thread; `context` is that of the main one. */
static int calls_elsewhere = 0;

static double root(const double *x, void *context) {
    if (context != &errno) calls_elsewhere++;
    return sqrt(x[0]);
}

/* A corner at 10, of slope 0.001 on average over steps to either side. */
static double corner(const double *x, void *context) {
    (void)context;
    return fabs(x[0] - 10.0) + 0.001 * x[0] + x[1];
}

static void errors_of_derivatives(void) {
    tenths_input inputs[2];
    tenths_propagation *propagation = NULL;
    tenths_moments moments;
    moments.struct_size = sizeof moments;
    inputs[0].struct_size = inputs[1].struct_size = sizeof *inputs;
    CHECK(tenths_input_init(&inputs[0]) == TENTHS_OK && tenths_input_init(&inputs[1]) == TENTHS_OK);
    inputs[0].name = "x";
    inputs[0].nominal = 10.01;
    inputs[0].plus = 0.1;
    inputs[0].minus = -0.1;
    inputs[1].name = "fixed";
    inputs[1].nominal = 3.0;
    CHECK(tenths_propagate(corner, NULL, inputs, 2, &propagation) == TENTHS_OK);
    CHECK(tenths_propagation_moments(propagation, &moments) == TENTHS_OK);
    /* Beside the corner the slope is 1.001. The longer steps reach over the corner, so that the digits are in doubt. */
    CHECK(fabs(moments.derivatives[0] - 1.001) <= moments.derivative_errors[0] && moments.derivative_errors[0] > 0.0);
    CHECK(moments.derivatives_count == 1 && strcmp(moments.derivatives_names[0], "x") == 0);
    tenths_moments_clear(&moments);
    tenths_propagation_free(propagation);
}

/* Half of a uniform law about zero has no root; the mean of the other half is 2/3, its variance 1/2 - 4/9. */
static void callbacks(void) {
    tenths_input input;
    tenths_distribution law;
    tenths_propagation *propagation = NULL;
    tenths_sampling sampling, many;
    tenths_sample *one = NULL, *two = NULL;
    tenths_summary summary;
    tenths_moments moments;
    char message[300];
    input.struct_size = sizeof input;
    law.struct_size = sizeof law;
    sampling.struct_size = sizeof sampling;
    summary.struct_size = sizeof summary;
    moments.struct_size = sizeof moments;
    CHECK(tenths_distribution_init(TENTHS_UNIFORM, &law) == TENTHS_OK && tenths_input_init(&input) == TENTHS_OK);
    input.name = "x";
    input.nominal = 0.0;
    input.plus = 1.0;
    input.minus = -1.0;
    input.distribution = &law;
    CHECK(tenths_propagate(root, &errno, &input, 1, &propagation) == TENTHS_OK);
    CHECK(tenths_sampling_init(100000, 9, &sampling) == TENTHS_OK);
    many = sampling;
    many.count = 2000000;
    CHECK(tenths_propagation_sample(propagation, &sampling, &one) == TENTHS_OK);
    CHECK(tenths_propagation_sample(propagation, &many, &two) == TENTHS_OK && calls_elsewhere == 0);
    tenths_sample_free(two);
    sampling.threads = 2;
    CHECK(tenths_propagation_sample(propagation, &sampling, &two) == TENTHS_OK && same_bits(one, two));
    CHECK(tenths_sample_summary(one, &summary) == TENTHS_OK && summary.count == 100000 && summary.undefined + summary.kept == 100000);
    CHECK(fabs((double)summary.undefined - 50000.0) < 800.0 && summary.fraction_out == (double)summary.undefined / 100000);
    CHECK(fabs(summary.mean - 2.0 / 3.0) < 5.0 * summary.mean_error && fabs(summary.sigma - sqrt(1.0 / 18.0)) < 5.0 * summary.sigma_error);
    CHECK(tenths_propagation_moments(propagation, &moments) == TENTHS_UNDEFINED);
    CHECK(isnan(moments.mean) && !moments.derivatives && moments.derivatives_count == 0);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "x = ") != NULL);
    CHECK(tenths_propagation_correlate(propagation, 0, 0, 0.5) == TENTHS_NOT_CORRELATABLE);
    tenths_sample_free(one);
    tenths_sample_free(two);
    tenths_propagation_free(propagation);
    input.plus = -2.0;
    CHECK(tenths_propagate(root, &errno, &input, 1, &propagation) == TENTHS_BAD_BAND && propagation == NULL);
    CHECK(tenths_propagate(root, NULL, &input, 65, &propagation) == TENTHS_BAD_FUNCTION);
}

static void faults(void) {
    tenths_stack *stack = NULL;
    tenths_contributor one;
    tenths_distribution law;
    char message[300];
    size_t number;
    one.struct_size = sizeof one;
    law.struct_size = sizeof law;
    CHECK(tenths_stack_new(2, &stack) == TENTHS_BAD_UNITS && stack == NULL);
    CHECK(tenths_stack_new(TENTHS_INCH, &stack) == TENTHS_OK);
    CHECK(tenths_contributor_init(&one) == TENTHS_OK);
    CHECK(tenths_stack_add(stack, &one) == TENTHS_NULL_POINTER);
    one.name = "shim";
    CHECK(tenths_stack_add(stack, &one) == TENTHS_BAD_SIZE);
    one.nominal = 0.031;
    one.sensitivity = 1e10;
    CHECK(tenths_stack_add(stack, &one) == TENTHS_BAD_CONTRIBUTOR);
    one.sensitivity = 1.0;
    one.count = 0;
    CHECK(tenths_stack_add(stack, &one) == TENTHS_BAD_CONTRIBUTOR);
    one.count = 1;
    CHECK(tenths_distribution_init(8, &law) == TENTHS_BAD_DISTRIBUTION);
    CHECK(tenths_distribution_init(TENTHS_PROCESS, &law) == TENTHS_OK);
    one.distribution = &law;
    CHECK(tenths_stack_add(stack, &one) == TENTHS_BAD_DISTRIBUTION);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "shim: process: mean must be") != NULL);
    one.distribution = NULL;
    CHECK(tenths_stack_count(stack) == 0 && tenths_stack_add(stack, &one) == TENTHS_OK && tenths_stack_add(stack, &one) == TENTHS_OK);
    CHECK(tenths_stack_find(stack, "shim", &number) == TENTHS_AMBIGUOUS_NAME);
    CHECK(tenths_stack_add_text(stack, "plate", "0.5", 1.0, NULL) == TENTHS_BAD_SIZE);
    CHECK(tenths_stack_count(stack) == 2 && tenths_stack_count(NULL) == 0);
    tenths_stack_free(stack);
    tenths_stack_free(NULL);
}

int main(void) {
    published();
    blocks();
    told();
    correlations();
    formulas();
    callbacks();
    errors_of_derivatives();
    faults();
    return finish();
}
