/* The figures of tests/published/capability.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 12, MOST = 400 };

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

static double or_infinite(const char *text, double none) { return *text ? atof(text) : none; }

static double or_nan(const char *text) { return *text ? atof(text) : NAN; }

static tenths_status make(char **f, tenths_capability *c) {
    double readings[MOST];
    size_t count = numbers(f[2], readings);
    tenths_capability_options options;
    options.struct_size = sizeof options;
    if (tenths_capability_options_init(&options) != TENTHS_OK) return TENTHS_INTERNAL;
    options.subgroup = (size_t)atoi(f[5]);
    options.target = or_nan(f[6]);
    options.sigma = *f[7] ? f[7] : NULL;
    options.confidence = atof(f[8]);
    options.law = f[9];
    return tenths_make_capability(TENTHS_METRIC, readings, count, or_infinite(f[3], -INFINITY), or_infinite(f[4], INFINITY),
                                  &options, c);
}

static size_t figure(const tenths_capability *c, const char *quantity, double *got) {
#define FIGURE(name) if (strcmp(quantity, #name) == 0) { got[0] = c->name; return 1; }
    FIGURE(mean) FIGURE(sigma_within) FIGURE(sigma_overall) FIGURE(cp) FIGURE(cpl) FIGURE(cpu) FIGURE(cpk) FIGURE(pp)
    FIGURE(ppk) FIGURE(cpm) FIGURE(ppm_below) FIGURE(ppm_above) FIGURE(ppm_expected) FIGURE(normality_statistic)
    FIGURE(normality_p)
    if (strcmp(quantity, "cp_interval") == 0) {
        got[0] = c->cp_interval_lower, got[1] = c->cp_interval_upper;
        return 2;
    }
    if (strcmp(quantity, "cpk_interval") == 0) {
        got[0] = c->cpk_interval_lower, got[1] = c->cpk_interval_upper;
        return 2;
    }
    return 0;
}

static void published(void) {
    static char line[20000];
    char *fields[FIELDS];
    tenths_capability capability;
    int figures = 0;
    FILE *file = fopen("tests/published/capability.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    memset(&capability, 0, sizeof capability);
    capability.struct_size = sizeof capability;
    while (fgets(line, sizeof line, file) != NULL) {
        double expected[2], got[2];
        size_t k, count;
        int good;
        if (*line == '#') continue;
        if (strncmp(line, "case;", 5) == 0) {
            tenths_capability_clear(&capability);
            CHECK(split(line, fields) == 10 && make(fields, &capability) == TENTHS_OK);
            continue;
        }
        good = split(line, fields) == 6;
        count = numbers(fields[2], expected);
        good = good && figure(&capability, fields[1], got) == count;
        for (k = 0; good && k < count; k++) good = fabs(got[k] - expected[k]) <= atof(fields[3]) * (1 + 1e-9);
        if (!good) printf("%s is not %s (%s)\n", fields[1], fields[2], fields[5]);
        CHECK(good);
        figures++;
    }
    tenths_capability_clear(&capability);
    fclose(file);
    CHECK(figures >= 60);
}

static void refusals(void) {
    static const double readings[] = {1.0, 2.0, 4.0, 3.0, 2.5};
    char message[300];
    tenths_capability_options options;
    tenths_capability c;
    options.struct_size = sizeof options;
    CHECK(tenths_capability_options_init(&options) == TENTHS_OK);
    memset(&c, 0, sizeof c);
    CHECK(tenths_make_capability(TENTHS_METRIC, readings, 5, -INFINITY, 5, &options, &c) == TENTHS_BAD_STRUCT_SIZE);
    c.struct_size = sizeof c;
    CHECK(tenths_make_capability(TENTHS_METRIC, readings, 5, -INFINITY, INFINITY, &options, &c) ==
          TENTHS_NO_CAPABILITY);
    CHECK(tenths_make_capability(TENTHS_METRIC, readings, 5, -INFINITY, 5, &options, &c) == TENTHS_OK);
    CHECK(!c.has_cp && !c.has_cp_interval && c.count == 5 && c.cpk == c.cpu);
    tenths_capability_clear(&c);
    options.subgroup = 2;
    CHECK(tenths_make_capability(TENTHS_METRIC, readings, 5, -INFINITY, 5, &options, &c) ==
          TENTHS_NO_CAPABILITY);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "the subgroups hold 6 readings, and there are 5") != NULL);
    options.subgroup = 0;
    options.sigma = "range";
    CHECK(tenths_make_capability(TENTHS_METRIC, readings, 5, -INFINITY, 5, &options, &c) ==
          TENTHS_NO_CAPABILITY);
    CHECK(tenths_make_capability(TENTHS_METRIC, readings, 5, NAN, 5, NULL, &c) == TENTHS_NO_CAPABILITY);
    CHECK(tenths_make_capability(TENTHS_METRIC, readings, 5, 0, 5, NULL, &c) == TENTHS_OK);
    tenths_capability_clear(&c);
}

/* By hand: a line through all readings leaves no spread, so that the whole tolerance is there to travel. */
static void drift(void) {
    static const double readings[] = {10.0, 10.25, 10.5, 10.75}, parts[] = {1, 3, 5, 7};
    tenths_tool_drift d;
    memset(&d, 0, sizeof d);
    d.struct_size = sizeof d;
    CHECK(tenths_make_tool_drift(TENTHS_METRIC, readings, 4, NULL, 9, 11, 1, 0.95, &d) == TENTHS_OK);
    CHECK(d.drift_per_part == 0.25 && d.parts_between_offsets == 9 && d.parts_left == 1 && d.offset == -1.75);
    tenths_tool_drift_clear(&d);
    CHECK(tenths_make_tool_drift(TENTHS_INCH, readings, 4, parts, -INFINITY, 11, 1, 0.95, &d) == TENTHS_OK);
    CHECK(d.drift_per_part == 0.125 && d.parts_left == 2 && !d.has_parts_between_offsets);
    tenths_tool_drift_clear(&d);
    CHECK(tenths_make_tool_drift(TENTHS_METRIC, readings, 2, NULL, 9, 11, 1, 0.95, &d) == TENTHS_NO_DRIFT);
    CHECK(tenths_make_tool_drift(TENTHS_METRIC, readings, 4, NULL, 11, 9, 1, 0.95, &d) == TENTHS_NO_DRIFT);
    tenths_tool_drift_clear(&d);
}

int main(void) {
    published();
    refusals();
    drift();
    return finish();
}
