/* The figures of tests/published/gauges.csv and decisions.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Picometres of a figure such as "0.2489 in": digits only, so that nothing is rounded. */
static int64_t picometres(const char *figure) {
    int64_t digits = 0, scale = 1;
    int point = 0;
    for (; *figure == '.' || (*figure >= '0' && *figure <= '9'); figure++) {
        if (*figure == '.') {
            point = 1;
            continue;
        }
        digits = 10 * digits + (*figure - '0');
        if (point) scale *= 10;
    }
    return digits * (strcmp(figure, " in") == 0 ? INT64_C(25400000000) / scale : INT64_C(1000000000) / scale);
}

/* Splits a line at its semicolons; empty fields stay. Returns how many there are. */
static int split(char *line, char **fields, int most) {
    int count = 0;
    line[strcspn(line, "\r\n")] = '\0';
    while (count < most) {
        fields[count++] = line;
        line = strchr(line, ';');
        if (line == NULL) break;
        *line++ = '\0';
    }
    return count;
}

static int gauge_line(char **f) {
    static const char *const classes[] = {"XXX", "XX", "X", "Y", "Z", "ZZ"};
    tenths_gauge gauge;
    const char *name = f[4], *wear = *f[3] == '\0' ? NULL : f[3];
    int64_t got = -1, want = picometres(f[5]);
    if (strcmp(f[0], "master") == 0) {
        int64_t lower, upper;
        if (tenths_check_master(f[2], f[1], &lower, &upper) != TENTHS_OK) return 0;
        return want == (strcmp(name, "master_lower") == 0 ? lower : upper);
    }
    gauge.struct_size = sizeof gauge;
    if (tenths_make_gauge(f[0], f[2], f[1], wear, NULL, &gauge) != TENTHS_OK) return 0;
    tenths_gauge_clear(&gauge);
    if (strcmp(name, "class") == 0)
        return gauge.has_gagemaker_class && strcmp(classes[gauge.gagemaker_class], f[5]) == 0;
    if (strcmp(name, "go_lower") == 0) got = gauge.go_limits_lower;
    if (strcmp(name, "go_upper") == 0) got = gauge.go_limits_upper;
    if (strcmp(name, "go_tolerance") == 0) got = gauge.go_limits_upper - gauge.go_limits_lower;
    if (strcmp(name, "no_go_lower") == 0) got = gauge.no_go_limits_lower;
    if (strcmp(name, "no_go_upper") == 0) got = gauge.no_go_limits_upper;
    if (strcmp(name, "wear_limit") == 0) got = gauge.wear_limit;
    return got == want;
}

static int decision_line(char **f) {
    tenths_decision decision;
    const char *name = f[3];
    int64_t got = -1;
    decision.struct_size = sizeof decision;
    if (tenths_make_decision(f[0], f[1], f[2], NULL, &decision) != TENTHS_OK) return 0;
    tenths_decision_clear(&decision);
    if (strcmp(name, "ratio") == 0) return decision.ratio == strtod(f[4], NULL);
    if (strncmp(name, "verdict ", 8) == 0) {
        int64_t reading = picometres(name + 8);
        int accepted = decision.acceptance_lower <= reading && reading <= decision.acceptance_upper;
        int rejected = reading < decision.reject_below || reading > decision.reject_above;
        return strcmp(f[4], accepted ? "conforming" : rejected ? "not conforming" : "indeterminate") == 0;
    }
    if (strcmp(name, "accept_lower") == 0) got = decision.acceptance_lower;
    if (strcmp(name, "accept_upper") == 0) got = decision.acceptance_upper;
    if (strcmp(name, "accept_width") == 0) got = decision.acceptance_upper - decision.acceptance_lower;
    if (strcmp(name, "guard_band") == 0) got = decision.guard_band;
    if (strcmp(name, "reject_below") == 0) got = decision.reject_below;
    if (strcmp(name, "reject_above") == 0) got = decision.reject_above;
    return got == picometres(f[4]);
}

static void published(const char *path, int (*check)(char **), int count, int least) {
    char line[400], *fields[8];
    int lines = 0;
    FILE *file = fopen(path, "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        int good;
        if (strncmp(line, "# ", 2) == 0) continue;
        good = split(line, fields, 8) == count && check(fields);
        if (!good) printf("%s %s %s %s %s\n", fields[0], fields[1], fields[2], fields[3], fields[4]);
        CHECK(good);
        lines++;
    }
    fclose(file);
    CHECK(lines > least);
}

static void faults(void) {
    tenths_gauge gauge;
    tenths_decision decision;
    char message[300], *proofs = NULL;
    memset(&gauge, 0, sizeof gauge);
    memset(&decision, 0, sizeof decision);
    CHECK(tenths_make_gauge("plug", "25 ±0.1 mm", "B89.1.5", NULL, NULL, &gauge) == TENTHS_BAD_STRUCT_SIZE);
    CHECK(tenths_make_decision("10..10.1 mm", "0.01 mm", "simple", NULL, &decision) == TENTHS_BAD_STRUCT_SIZE);
    gauge.struct_size = sizeof gauge;
    decision.struct_size = sizeof decision;
    CHECK(tenths_make_gauge("plug", "25 +0.021/0 mm", "ISO 1938-1", NULL, NULL, &gauge) == TENTHS_OK);
    CHECK(gauge.has_grade && gauge.grade == 7 && !gauge.has_gagemaker_class && gauge.basis == 0);
    CHECK(strstr(gauge.standard, "ISO 1938-1:2015") != NULL && strstr(gauge.go_proves, "envelope") != NULL);
    /* By hand: y = 3 and H / 2 = 2 micrometres. */
    CHECK(gauge.worn_go_passes == 3000000 && gauge.no_go_passes == 2000000 && !gauge.has_go_master && gauge.go_master_lower == 0);
    tenths_gauge_clear(&gauge);
    CHECK(gauge.standard == NULL && gauge.go_proves == NULL);
    CHECK(tenths_make_gauge("snap", "25 ±0.1 mm", "B89.1.5", NULL, "1 um", &gauge) == TENTHS_OK);
    CHECK(gauge.go_limits_upper % 1000000 == 0 && gauge.go_master_upper > gauge.go_master_lower && !gauge.has_step);
    tenths_gauge_clear(&gauge);
    CHECK(tenths_make_gauge("flush_pin", "25 ±0.1 mm", "B89.1.5", NULL, NULL, &gauge) == TENTHS_OK);
    CHECK(gauge.has_step && gauge.step_upper == 200000000 && gauge.step_lower < gauge.step_upper);
    tenths_gauge_clear(&gauge);
    CHECK(tenths_make_gauge("plug", "25 ±0.1 mm", "B89", NULL, NULL, &gauge) == TENTHS_NO_GAUGE);
    CHECK(gauge.go_limits_upper == 0 && gauge.standard == NULL && gauge.struct_size == sizeof gauge);
    CHECK(tenths_make_gauge(NULL, "25 ±0.1 mm", "B89.1.5", NULL, NULL, &gauge) == TENTHS_NULL_POINTER);
    CHECK(tenths_make_decision("10..10.1 mm", "0.1 mm", "ISO 14253-1", NULL, &decision) == TENTHS_NO_DECISION);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "use up the tolerance") != NULL);
    CHECK(strcmp(tenths_status_text(TENTHS_NO_DECISION), "unknown status") != 0);
    CHECK(tenths_gauge_proofs("ring", &proofs) == TENTHS_OK && strstr(proofs, "ISO 8015") != NULL);
    tenths_text_free(proofs);
    CHECK(tenths_gauge_proofs("gap", &proofs) == TENTHS_NO_GAUGE && proofs == NULL);
}

/* By hand: a guard band of 0.0002 in at the limits 1.415 and 1.425 in; in floating point 1.425 - 0.0002 is not 1.4248. */
static void columns(void) {
    const double readings[] = {1.4147, 1.4148, 1.4151, 1.4152, 1.4248, 1.4249, 1.4252, 1.4253, NAN, INFINITY};
    const int32_t good = TENTHS_CONFORMING, bad = TENTHS_NOT_CONFORMING, open = TENTHS_INDETERMINATE, none = TENTHS_NO_VERDICT;
    const int32_t expected[] = {bad, open, open, good, good, open, open, bad, none, none};
    const char *rule = "ISO 14253-1:1998";
    int32_t verdicts[10];
    CHECK(tenths_judge_readings(TENTHS_INCH, "1.420 ±.005 in", "0.0002 in", rule, NULL, readings, 10, verdicts) == TENTHS_OK);
    CHECK(memcmp(verdicts, expected, sizeof verdicts) == 0);
    CHECK(tenths_judge_readings(TENTHS_INCH, "1.420 ±.005 in", "0.0002 in", rule, "0.0001 in", readings, 10, verdicts) == TENTHS_OK);
    CHECK(memcmp(verdicts, expected, sizeof verdicts) == 0);
    CHECK(tenths_judge_readings(TENTHS_INCH, "1.420 ±.005 in", "0.01 in", rule, NULL, readings, 10, verdicts) == TENTHS_NO_DECISION);
    CHECK(tenths_judge_readings(TENTHS_INCH, "1.420 ±.005 in", "0.0002 in", rule, NULL, NULL, 10, verdicts) == TENTHS_NULL_POINTER);
    CHECK(tenths_judge_readings(TENTHS_INCH, "1.420 ±.005 in", "0.0002 in", rule, NULL, NULL, 0, NULL) == TENTHS_OK);
}

int main(void) {
    columns();
    published("tests/published/gauges.csv", gauge_line, 8, 100);
    published("tests/published/decisions.csv", decision_line, 7, 25);
    faults();
    return finish();
}
