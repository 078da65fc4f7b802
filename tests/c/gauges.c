/* The figures of tests/published/gauges.csv and decisions.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
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
    tenths_gauge_pair pair;
    const char *name = f[4], *wear = *f[3] == '\0' ? NULL : f[3];
    int64_t got = -1, want = picometres(f[5]);
    if (strcmp(f[0], "master") == 0) {
        int64_t lower, upper;
        if (tenths_check_master(f[2], f[1], &lower, &upper) != TENTHS_OK) return 0;
        return want == (strcmp(name, "master_lower") == 0 ? lower : upper);
    }
    pair.struct_size = sizeof pair;
    if (tenths_make_gauge(f[0], f[2], f[1], wear, NULL, &pair) != TENTHS_OK) return 0;
    if (strcmp(name, "class") == 0)
        return pair.gagemaker_class >= 0 && strcmp(classes[pair.gagemaker_class], f[5]) == 0;
    if (strcmp(name, "go_lower") == 0) got = pair.go_lower;
    if (strcmp(name, "go_upper") == 0) got = pair.go_upper;
    if (strcmp(name, "go_tolerance") == 0) got = pair.go_upper - pair.go_lower;
    if (strcmp(name, "no_go_lower") == 0) got = pair.no_go_lower;
    if (strcmp(name, "no_go_upper") == 0) got = pair.no_go_upper;
    if (strcmp(name, "wear_limit") == 0) got = pair.wear_limit;
    return got == want;
}

static int decision_line(char **f) {
    tenths_decision_zones zones;
    const char *name = f[3];
    int64_t got = -1;
    zones.struct_size = sizeof zones;
    if (tenths_decision(f[0], f[1], f[2], NULL, &zones) != TENTHS_OK) return 0;
    if (strcmp(name, "ratio") == 0) return zones.ratio == strtod(f[4], NULL);
    if (strncmp(name, "verdict ", 8) == 0) {
        int64_t reading = picometres(name + 8);
        int accepted = zones.accept_lower <= reading && reading <= zones.accept_upper;
        int rejected = reading < zones.reject_below || reading > zones.reject_above;
        return strcmp(f[4], accepted ? "conforming" : rejected ? "not conforming" : "indeterminate") == 0;
    }
    if (strcmp(name, "accept_lower") == 0) got = zones.accept_lower;
    if (strcmp(name, "accept_upper") == 0) got = zones.accept_upper;
    if (strcmp(name, "accept_width") == 0) got = zones.accept_upper - zones.accept_lower;
    if (strcmp(name, "guard_band") == 0) got = zones.guard_band;
    if (strcmp(name, "reject_below") == 0) got = zones.reject_below;
    if (strcmp(name, "reject_above") == 0) got = zones.reject_above;
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
    tenths_gauge_pair pair;
    tenths_decision_zones zones;
    char message[300], *proofs = NULL;
    memset(&pair, 0, sizeof pair);
    memset(&zones, 0, sizeof zones);
    CHECK(tenths_make_gauge("plug", "25 ±0.1 mm", "B89.1.5", NULL, NULL, &pair) == TENTHS_BAD_STRUCT_SIZE);
    CHECK(tenths_decision("10..10.1 mm", "0.01 mm", "simple", NULL, &zones) == TENTHS_BAD_STRUCT_SIZE);
    pair.struct_size = sizeof pair;
    zones.struct_size = sizeof zones;
    CHECK(tenths_make_gauge("plug", "25 +0.021/0 mm", "ISO 1938-1", NULL, NULL, &pair) == TENTHS_OK);
    CHECK(pair.grade == 7 && pair.gagemaker_class == -1 && pair.published == 1);
    /* By hand: y = 3 and H / 2 = 2 micrometres. */
    CHECK(pair.worn_go_passes == 3000000 && pair.no_go_passes == 2000000 && pair.go_master_lower == 0);
    CHECK(tenths_make_gauge("snap", "25 ±0.1 mm", "B89.1.5", NULL, "1 um", &pair) == TENTHS_OK);
    CHECK(pair.go_upper % 1000000 == 0 && pair.go_master_upper > pair.go_master_lower && pair.step_upper == 0);
    CHECK(tenths_make_gauge("flush_pin", "25 ±0.1 mm", "B89.1.5", NULL, NULL, &pair) == TENTHS_OK);
    CHECK(pair.step_upper == 200000000 && pair.step_lower < pair.step_upper);
    CHECK(tenths_make_gauge("plug", "25 ±0.1 mm", "B89", NULL, NULL, &pair) == TENTHS_NO_GAUGE);
    CHECK(tenths_make_gauge(NULL, "25 ±0.1 mm", "B89.1.5", NULL, NULL, &pair) == TENTHS_NULL_POINTER);
    CHECK(tenths_decision("10..10.1 mm", "0.1 mm", "ISO 14253-1", NULL, &zones) == TENTHS_NO_DECISION);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "leave nothing of the tolerance") != NULL);
    CHECK(strcmp(tenths_status_text(TENTHS_NO_DECISION), "unknown status") != 0);
    CHECK(tenths_gauge_proofs("ring", &proofs) == TENTHS_OK && strstr(proofs, "ISO 8015") != NULL);
    tenths_text_free(proofs);
    CHECK(tenths_gauge_proofs("gap", &proofs) == TENTHS_NO_GAUGE && proofs == NULL);
}

int main(void) {
    published("tests/published/gauges.csv", gauge_line, 8, 100);
    published("tests/published/decisions.csv", decision_line, 7, 25);
    faults();
    return finish();
}
