/* What the generated programs do with a row of a formula. */
#ifndef ROWS_H
#define ROWS_H
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <string.h>

/* A formula behind one signature; `given` tells by bit which arguments to set. */
struct formula {
    const char *name;
    size_t arguments, results;
    tenths_status (*call)(tenths_units units, const double *x, uint32_t given, double *y, uint32_t *advice);
    int has_advice;
};

#define EVERY 0xffffffffu
enum { MOST = 32 };

static inline uint64_t bits_of(double x) {
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

static inline void row_failed(const char *where, const struct formula *f, tenths_status status, double got) {
    char message[300];
    tenths_error_message(message, sizeof message);
    printf("%s: %s: status %d, result %.17g, last message: %s\n", where, f->name, (int)status, got, message);
    failed++;
}

/* A figure in print, met within its tolerance and the last bits of floating point. */
static inline void published(const char *where, const struct formula *f, tenths_units units, uint32_t given,
                             const uint64_t *bits, size_t output, double value, double within) {
    double x[MOST], y[MOST];
    tenths_status status;
    memcpy(x, bits, f->arguments * sizeof *x);
    status = f->call(units, x, given, y, NULL);
    if (status == TENTHS_OK && fabs(y[output] - value) <= within + 1e-9 * (within + fabs(value))) {
        passed++;
    } else {
        row_failed(where, f, status, y[output]);
    }
}

/* The status, results and advice that the Rust call gives, to the bit; NaN in every result on an error. */
static inline void parity(const char *where, const struct formula *f, tenths_units units, const uint64_t *bits,
                          tenths_status expected, const uint64_t *results, uint32_t expected_advice) {
    double x[MOST], y[MOST];
    uint32_t advice = 99, checked = 99;
    size_t k;
    int same;
    tenths_status status;
    memcpy(x, bits, f->arguments * sizeof *x);
    status = f->call(units, x, EVERY, y, &advice);
    same = status == expected && tenths_formula_check(f->name, units, x, f->arguments, &checked) == expected;
    same = same && checked == expected_advice && (!f->has_advice || advice == expected_advice);
    for (k = 0; k < f->results; k++) {
        same = same && (expected == TENTHS_OK ? bits_of(y[k]) == results[k] : y[k] != y[k]);
    }
    if (same) {
        passed++;
    } else {
        row_failed(where, f, status, y[0]);
    }
}

/* A number in another unit: advice on its argument, in words that name the unit meant. */
static inline void slip(const char *where, const struct formula *f, tenths_units units, const uint64_t *bits, size_t at,
                        const char *start, const char *end) {
    double x[MOST];
    uint32_t advice = 0;
    char *told = NULL;
    const char *line, *after;
    int found = 0;
    tenths_status status;
    memcpy(x, bits, f->arguments * sizeof *x);
    status = tenths_formula_check(f->name, units, x, f->arguments, &advice);
    if (status == TENTHS_OK) status = tenths_formula_remarks(f->name, units, x, f->arguments, &told);
    for (line = told; line != NULL && *line != '\0'; line = after) {
        after = strchr(line, '\n') + 1;
        found += strncmp(line, start, strlen(start)) == 0 && (size_t)(after - line) > strlen(end) &&
                 strncmp(after - strlen(end), end, strlen(end)) == 0;
    }
    if (status == TENTHS_OK && found == 1 && (advice >> at & 1) == 1) {
        passed++;
    } else {
        row_failed(where, f, status, x[at]);
        if (told != NULL) printf("%s", told);
    }
    tenths_text_free(told);
}

/* Odd numbers in every argument: a success has finite results, and an error NaN in all of them. */
static inline void odd_numbers(const struct formula *f) {
    static const double odd[] = {NAN, INFINITY, -INFINITY, 0.0, -0.0, -1.0, 1.0, 1e308, -1e308, 5e-324, 2e-308};
    double x[MOST], y[MOST];
    size_t k, j, i, n = sizeof odd / sizeof *odd;
    int units;
    for (units = -1; units <= 2; units++) {
        for (k = 0; k < f->arguments; k++) {
            for (i = 0; i < n * 3; i++) {
                tenths_status status;
                int sound;
                for (j = 0; j < f->arguments; j++) x[j] = i / n == 0 ? 1.0 : i / n == 1 ? 0.25 : odd[i % n];
                x[k] = odd[i % n];
                for (j = 0; j < f->results; j++) y[j] = 3.0;
                status = f->call(units, x, EVERY, y, NULL);
                sound = (units == TENTHS_INCH || units == TENTHS_METRIC) == (status != TENTHS_BAD_UNITS);
                sound = sound && (isfinite(x[k]) || status != TENTHS_OK) && status != TENTHS_INTERNAL;
                for (j = 0; j < f->results; j++) sound = sound && (status == TENTHS_OK ? isfinite(y[j]) : isnan(y[j]));
                if (sound) {
                    passed++;
                } else {
                    row_failed("odd numbers", f, status, y[0]);
                }
            }
        }
    }
}
#endif
