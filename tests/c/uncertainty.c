/* The figures of tests/published/uncertainty.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 8, MOST = 16 };

/* Splits a line at a sign into at most `most` parts, and tells how many there are. */
static size_t split(char *line, char sign, char **parts, size_t most) {
    size_t count = 0;
    line[strcspn(line, "\r\n")] = '\0';
    for (;;) {
        char *end = strchr(line, sign);
        if (count < most) parts[count] = line;
        count++;
        if (end == NULL) return count;
        *end = '\0';
        line = end + 1;
    }
}

static int near(double got, const char *figure) {
    const char *point = strchr(figure, '.');
    double want = strtod(figure, NULL), within = 0.5 * pow(10, point == NULL ? 0 : -(double)strlen(point + 1));
    double least = 1e-8 * fabs(want);
    return fabs(got - want) <= (within > least ? within : least) * (1 + 1e-9);
}

/* A sum of as many inputs as there are weights. */
struct weights {
    size_t count;
    double weight[MOST];
};

static double weighted(const double *x, void *context) {
    const struct weights *weights = (const struct weights *)context;
    double sum = 0;
    size_t k;
    for (k = 0; k < weights->count; k++) sum += weights->weight[k] * x[k];
    return sum;
}

static double end_gauge(const double *x, void *context) {
    (void)context;
    return x[0] + x[1] + x[2] + x[3] - x[0] * (x[4] * (x[5] + x[6]) + x[7] * x[8]);
}

static double resistance(const double *x, void *context) {
    (void)context;
    return x[0] * cos(x[2]) / x[1];
}

static int is_figure(const tenths_uncertainty_budget *budget, const char *quantity, const char *want) {
    size_t k;
    if (strcmp(quantity, "value") == 0) return near(budget->value, want);
    if (strcmp(quantity, "combined") == 0) return near(budget->combined, want);
    if (strcmp(quantity, "second_order") == 0) return near(budget->second_order, want);
    if (strcmp(quantity, "effective_freedom") == 0) return near(budget->effective_freedom, want);
    if (strcmp(quantity, "coverage_factor") == 0) return near(budget->coverage_factor, want);
    if (strcmp(quantity, "expanded") == 0) return near(budget->expanded, want);
    for (k = 0; k < budget->rows_count; k++) {
        const tenths_uncertainty_row *row = &budget->rows[k];
        if (strncmp(quantity, "u:", 2) == 0 && strcmp(row->name, quantity + 2) == 0) return near(row->standard_uncertainty, want);
        if (strncmp(quantity, "part:", 5) == 0 && strcmp(row->name, quantity + 5) == 0) return near(row->contribution, want);
    }
    return 0;
}

static int readings(char *text, const char *quantity, const char *want) {
    char *words[MOST];
    double numbers[MOST];
    size_t count = split(text, ' ', words, MOST), k;
    tenths_estimate got;
    got.struct_size = sizeof got;
    for (k = 0; k < count; k++) numbers[k] = strtod(words[k], NULL);
    if (tenths_estimate_of_readings(numbers, count, &got) != TENTHS_OK) return 0;
    if (strcmp(quantity, "value") == 0) return near(got.value, want);
    if (strcmp(quantity, "standard_uncertainty") == 0) return near(got.standard_uncertainty, want);
    return strcmp(quantity, "degrees_of_freedom") == 0 && near(got.degrees_of_freedom, want);
}

static size_t place(char *const *names, size_t count, const char *name) {
    size_t k = 0;
    while (k < count && strcmp(names[k], name) != 0) k++;
    return k;
}

static int budget_line(char **f) {
    char *texts[MOST], *names[MOST];
    tenths_input inputs[MOST];
    tenths_distribution laws[MOST];
    double freedoms[MOST];
    struct weights weights;
    tenths_function function = weighted;
    tenths_propagation *propagation;
    tenths_uncertainty_budget budget;
    size_t count, k;
    int good;
    if (strcmp(f[0], "readings") == 0) return readings(f[3], f[4], f[5]);
    count = split(f[3], ',', texts, MOST);
    for (k = 0; k < count; k++) {
        char *words[5];
        double value, spread;
        if (split(texts[k], ' ', words, 5) != 5) return 0;
        names[k] = words[0];
        value = strtod(words[1], NULL), spread = strtod(words[3], NULL), freedoms[k] = strtod(words[4], NULL);
        inputs[k].struct_size = sizeof inputs[k];
        laws[k].struct_size = sizeof laws[k];
        tenths_input_init(&inputs[k]);
        inputs[k].name = words[0], inputs[k].nominal = value, inputs[k].distribution = &laws[k];
        if (strcmp(words[2], "normal") == 0) {
            if (tenths_distribution_init(TENTHS_PROCESS, &laws[k]) != TENTHS_OK) return 0;
            laws[k].first = value, laws[k].second = spread;
            continue;
        }
        inputs[k].plus = spread, inputs[k].minus = -spread;
        if (strcmp(words[2], "arcsine") == 0) {
            if (tenths_distribution_init(TENTHS_BETA, &laws[k]) != TENTHS_OK) return 0;
            laws[k].first = laws[k].second = 0.5;
        } else {
            tenths_distribution_init(strcmp(words[2], "uniform") == 0 ? TENTHS_UNIFORM : TENTHS_TRIANGULAR, &laws[k]);
        }
    }
    if (strcmp(f[0], "end_gauge") == 0) {
        function = end_gauge;
    } else if (strcmp(f[0], "resistance") == 0) {
        function = resistance;
    } else {
        char *words[MOST];
        weights.count = split(f[0], ' ', words, MOST);
        for (k = 0; k < weights.count; k++) weights.weight[k] = strtod(words[k], NULL);
    }
    if (tenths_propagate(function, &weights, inputs, count, &propagation) != TENTHS_OK) return 0;
    good = 1;
    if (*f[2]) {
        char *pairs[MOST];
        size_t pair_count = split(f[2], ',', pairs, MOST);
        for (k = 0; k < pair_count; k++) {
            char *words[3];
            good &= split(pairs[k], ' ', words, 3) == 3 &&
                    tenths_propagation_correlate(propagation, place(names, count, words[0]), place(names, count, words[1]),
                                                 strtod(words[2], NULL)) == TENTHS_OK;
        }
    }
    budget.struct_size = sizeof budget;
    good &= tenths_propagation_budget(propagation, freedoms, count, strtod(f[1], NULL), NULL, &budget) == TENTHS_OK &&
            is_figure(&budget, f[4], f[5]);
    tenths_uncertainty_budget_clear(&budget);
    tenths_propagation_free(propagation);
    return good;
}

static void published(void) {
    char line[600], copy[600], *parts[FIELDS];
    int lines = 0;
    FILE *file = fopen("tests/published/uncertainty.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        int good;
        if (strncmp(line, "# ", 2) == 0) continue;
        strcpy(copy, line);
        good = split(line, ';', parts, FIELDS) == FIELDS && budget_line(parts);
        CHECK(good);
        if (!good) printf("%s", copy);
        lines++;
    }
    fclose(file);
    CHECK(lines >= 35);
}

/* One normal input with four degrees of freedom: its 95 percent are t(0.975, 4) = 2.776 standard uncertainties. */
static void a_model_is_sampled(void) {
    tenths_input input;
    tenths_distribution law;
    tenths_propagation *propagation;
    tenths_sampling sampling;
    tenths_uncertainty_budget budget;
    struct weights one = {1, {1}};
    double four = 4, less = 0.5;
    input.struct_size = sizeof input, law.struct_size = sizeof law, sampling.struct_size = sizeof sampling;
    budget.struct_size = sizeof budget;
    tenths_input_init(&input);
    CHECK(tenths_distribution_init(TENTHS_PROCESS, &law) == TENTHS_OK);
    law.first = 10, law.second = 0.5;
    input.name = "a", input.nominal = 10, input.distribution = &law;
    CHECK(tenths_propagate(weighted, &one, &input, 1, &propagation) == TENTHS_OK);
    CHECK(tenths_sampling_init(200000, 7, &sampling) == TENTHS_OK);
    CHECK(tenths_propagation_budget(propagation, &four, 1, 0.95, &sampling, &budget) == TENTHS_OK);
    CHECK(budget.has_monte_carlo && fabs(budget.monte_carlo_upper - 11.388) < 0.02 && budget.monte_carlo_count == 200000);
    CHECK(!budget.has_unit && !budget.has_for_decision && budget.rows_count == 1);
    tenths_uncertainty_budget_clear(&budget);
    CHECK(tenths_propagation_budget(propagation, &less, 1, 0.95, NULL, &budget) == TENTHS_NO_UNCERTAINTY);
    tenths_uncertainty_budget_clear(&budget);
    CHECK(tenths_propagation_budget(propagation, NULL, 0, 95, NULL, &budget) == TENTHS_NO_UNCERTAINTY);
    tenths_uncertainty_budget_clear(&budget);
    CHECK(tenths_propagation_budget(propagation, NULL, 0, 0.95, NULL, &budget) == TENTHS_OK);
    CHECK(isinf(budget.effective_freedom) && fabs(budget.coverage_factor - 1.95996) < 1e-5);
    tenths_uncertainty_budget_clear(&budget);
    tenths_propagation_free(propagation);
}

int main(void) {
    published();
    a_model_is_sampled();
    return finish();
}
