/* The figures of tests/published/iso286_limits.csv and asme_b4_1.csv through the C header. Run from the root of the
 * project. */
#include "check.h"
#include "tenths.h"
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 8 };
static const int64_t MILLIMETRE = INT64_C(1000000000), INCH = INT64_C(25400000000);

/* A decimal figure in a unit of so many picometres: digits only, so that nothing is rounded. */
static int64_t picometres(const char *figure, int64_t unit) {
    int64_t digits = 0, scale = 1, sign = 1;
    int point = 0;
    if (*figure == '-') sign = -1, figure++;
    for (; *figure != '\0'; figure++) {
        if (*figure == '.') {
            point = 1;
            continue;
        }
        digits = 10 * digits + (*figure - '0');
        if (point) scale *= 10;
    }
    return sign * digits * unit / scale;
}

/* The fields of a line, which may be empty. */
static int split(char *line, char *fields[FIELDS]) {
    int count = 1;
    fields[0] = line;
    for (; *line != '\0' && *line != '\n'; line++) {
        if (*line != ';' || count == FIELDS) continue;
        *line = '\0';
        fields[count++] = line + 1;
    }
    *line = '\0';
    return count;
}

static int limits_hold(char *fields[FIELDS]) {
    char text[100];
    tenths_limits_out limits;
    tenths_fit fit;
    int64_t micrometre = MILLIMETRE / 1000;
    limits.struct_size = sizeof limits;
    fit.struct_size = sizeof fit;
    sprintf(text, "%.20s %.20s", fields[0], fields[1]);
    if (strchr(fields[1], '/') != NULL) {
        if (tenths_make_fit(text, &fit) != TENTHS_OK) return 0;
        tenths_fit_clear(&fit);
        return fit.max_clearance == picometres(fields[4], micrometre)
               && fit.min_clearance == picometres(fields[5], micrometre);
    }
    return tenths_iso_limits(text, &limits) == TENTHS_OK && limits.nominal == picometres(fields[0], MILLIMETRE)
           && limits.upper - limits.nominal == picometres(fields[2], micrometre)
           && limits.lower - limits.nominal == picometres(fields[3], micrometre);
}

static int inch_fit_holds(char *fields[FIELDS]) {
    char text[100];
    tenths_fit fit, again;
    int64_t nominal = picometres(fields[2], INCH);
    fit.struct_size = again.struct_size = sizeof fit;
    sprintf(text, "%.20s in", fields[2]);
    if (tenths_make_inch_fit(fields[0], text, &fit) != TENTHS_OK) return 0;
    sprintf(text, "%.20s in %.20s", fields[2], fields[0]);
    tenths_fit_clear(&fit);
    if (tenths_make_fit(text, &again) != TENTHS_OK) return 0;
    tenths_fit_clear(&again);
    return again.min_clearance == fit.min_clearance
           && fit.nominal == nominal && fit.hole_lower - nominal == picometres(fields[3], INCH / 1000)
           && fit.hole_upper - nominal == picometres(fields[4], INCH / 1000)
           && fit.shaft_lower - nominal == picometres(fields[5], INCH / 1000)
           && fit.shaft_upper - nominal == picometres(fields[6], INCH / 1000)
           && fit.is_from_memory == (strstr(fields[7], "memory") != NULL);
}

static void published(const char *path, int fields_of_a_line, int lines_of_it, int (*holds)(char *fields[FIELDS])) {
    char line[600];
    int lines = 0;
    FILE *file = fopen(path, "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        char *fields[FIELDS];
        int good;
        if (strncmp(line, "# ", 2) == 0) continue;
        good = split(line, fields) == fields_of_a_line && holds(fields);
        if (!good) printf("%s %s\n", fields[0], fields[1]);
        CHECK(good);
        lines++;
    }
    fclose(file);
    CHECK(lines == lines_of_it);
}

static void selection(void) {
    char buffer[4000], small[10];
    size_t length = 0, preferred = 0;
    CHECK(tenths_select_fits("25 mm", "0.007 mm", "0.041 mm", TENTHS_HOLE, buffer, sizeof buffer, &length, &preferred)
          == TENTHS_OK);
    CHECK(length == strlen(buffer) && strncmp(buffer, "25 H7/g6\n", 9) == 0 && preferred == 1);
    CHECK(tenths_select_fits("25 mm", "-0.035 mm", "-0.001 mm", TENTHS_SHAFT, small, sizeof small, &length, NULL)
          == TENTHS_OK);
    CHECK(strlen(small) == sizeof small - 1 && length > sizeof small);
    CHECK(tenths_select_fits("25 mm", "0 mm", "0.001 mm", TENTHS_HOLE, buffer, sizeof buffer, &length, NULL) == TENTHS_OK);
    CHECK(length == 0 && buffer[0] == '\0');
    CHECK(tenths_select_fits("25 mm", "1 mm", "0 mm", TENTHS_HOLE, NULL, 0, NULL, NULL) == TENTHS_BAD_FIT);
    CHECK(tenths_select_fits("25 mm", "0 mm", "1 mm", 2, NULL, 0, NULL, NULL) == TENTHS_BAD_MEMBER);
    {
        /* By hand, ISO 286-2: H7 has 21 and g6 13 micrometres, and 7 to 41 of clearance. */
        tenths_fit_selection selection;
        memset(&selection, 0, sizeof selection);
        selection.struct_size = sizeof selection;
        CHECK(tenths_make_fit_selection("25 mm", "0.007 mm", "0.061 mm", "hole", &selection) == TENTHS_OK);
        CHECK(selection.choices_count > 10 && strcmp(selection.choices[0].fit_designation, "25 H7/g6") == 0);
        CHECK(selection.choices[0].tolerance == 34000000 && selection.choices[0].off_middle == 10000000);
        CHECK(selection.choices[0].preference == TENTHS_FIT_CHOICE_PREFERENCE_PREFERRED);
        CHECK(strstr(selection.considered, "H4 to H13") != NULL && strstr(selection.ranking, "ASME B4.2") != NULL);
        tenths_fit_selection_clear(&selection);
        CHECK(tenths_make_fit_selection("25 mm", "0 mm", "1 mm", "bore", &selection) == TENTHS_BAD_FIT);
    }
    CHECK(tenths_iso_classes("12 +0/-0.011 mm", TENTHS_SHAFT, buffer, sizeof buffer, &length) == TENTHS_OK);
    CHECK(length == strlen(buffer) && strncmp(buffer, "h6 ", 3) == 0);
}

/* ISO 286-1: IT7 of 25 mm is 21 um, half of it 10.5; older tables round it to 10. */
static void rounded_js(void) {
    tenths_limits_out limits;
    limits.struct_size = sizeof limits;
    CHECK(tenths_iso_limits("25 JS7", &limits) == TENTHS_OK && limits.upper - limits.nominal == INT64_C(10500000));
    CHECK(tenths_iso_limits_rounded_js("25 JS7", &limits) == TENTHS_OK);
    CHECK(limits.upper - limits.nominal == INT64_C(10000000) && limits.nominal - limits.lower == INT64_C(10000000));
    CHECK(tenths_iso_limits_rounded_js("25 H7", &limits) == TENTHS_OK && limits.upper - limits.lower == INT64_C(21000000));
    CHECK(tenths_iso_limits_rounded_js("25 JS", &limits) == TENTHS_BAD_FIT);
    CHECK(tenths_iso_limits_rounded_js("25 JS7", NULL) == TENTHS_NULL_POINTER);
    limits.struct_size = 8;
    CHECK(tenths_iso_limits_rounded_js("25 JS7", &limits) == TENTHS_BAD_STRUCT_SIZE);
}

/* 50 H7/k6: 25 and 0 um, 18 and 2 um, so that it may have 23 um of clearance. */
static void joint_findings(void) {
    tenths_press_joint_input in;
    tenths_press_joint_output out;
    char *findings = NULL;
    in.struct_size = sizeof in;
    out.struct_size = sizeof out;
    CHECK(tenths_press_joint_init(TENTHS_METRIC, &in) == TENTHS_OK);
    in.least_interference = -0.023;
    in.greatest_interference = 0.018;
    in.diameter = in.length = 50;
    in.hub_outer_diameter = 90;
    in.hub_modulus = in.shaft_modulus = 206;
    in.hub_poisson = in.shaft_poisson = 0.3;
    in.holding_friction = in.pressing_friction = 0.12;
    in.hub_yield = in.shaft_yield = 300;
    CHECK(tenths_press_joint(TENTHS_METRIC, &in, &out, NULL) == TENTHS_OK);
    CHECK(tenths_press_joint_findings(TENTHS_METRIC, &out, &findings) == TENTHS_OK);
    CHECK(strstr(findings, "\"code\":\"joint_may_be_loose\"") != NULL && strstr(findings, "-0.023 mm") != NULL);
    CHECK(strstr(findings, "joint_yields") == NULL);
    tenths_text_free(findings);
    in.least_interference = 0.01;
    CHECK(tenths_press_joint(TENTHS_METRIC, &in, &out, NULL) == TENTHS_OK);
    CHECK(tenths_press_joint_findings(TENTHS_METRIC, &out, &findings) == TENTHS_OK && strcmp(findings, "[]") == 0);
    tenths_text_free(findings);
    CHECK(tenths_press_joint_findings(2, &out, &findings) == TENTHS_BAD_UNITS && findings == NULL);
    CHECK(tenths_press_joint_findings(TENTHS_METRIC, NULL, &findings) == TENTHS_NULL_POINTER);
    CHECK(tenths_press_joint_findings(TENTHS_METRIC, &out, NULL) == TENTHS_NULL_POINTER);
    out.struct_size = 8;
    CHECK(tenths_press_joint_findings(TENTHS_METRIC, &out, &findings) == TENTHS_BAD_STRUCT_SIZE);
}

static void faults(void) {
    tenths_fit fit;
    tenths_limits_out limits;
    char message[300];
    memset(&fit, 0, sizeof fit);
    CHECK(tenths_make_fit("25 H7/p6", &fit) == TENTHS_BAD_STRUCT_SIZE);
    fit.struct_size = sizeof fit;
    CHECK(tenths_make_fit("25 H7/p6", &fit) == TENTHS_OK && fit.kind == TENTHS_INTERFERENCE_FIT);
    CHECK(fit.has_symbol && strcmp(fit.symbol, "H7/p6") == 0 && fit.has_basis && fit.basis == TENTHS_HOLE);
    tenths_fit_clear(&fit);
    CHECK(fit.symbol == NULL && fit.struct_size == sizeof fit);
    tenths_fit_clear(&fit);
    tenths_fit_clear(NULL);
    CHECK(tenths_make_fit("25 H7/p", &fit) == TENTHS_BAD_FIT);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "needs a tolerance grade") != NULL);
    /* No old results stay where there are no new ones. */
    CHECK(fit.hole_upper == 0 && !fit.has_symbol && fit.symbol == NULL);
    CHECK(tenths_make_inch_fit("FN2", "1.5", &fit) == TENTHS_BAD_SIZE);
    limits.struct_size = sizeof limits;
    /* DIN 1420 as reprinted by makers of reamers: 10.058 and 10.050 mm. */
    CHECK(tenths_reamer_limits("10 D8", &limits) == TENTHS_OK);
    CHECK(limits.lower == 10050000000LL && limits.upper == 10058000000LL);
    CHECK(tenths_reamer_limits("10 +0.001/0 mm", &limits) == TENTHS_BAD_SIZE);
    CHECK(tenths_iso_limits("KRR7", &limits) == TENTHS_BAD_FIT);
    CHECK(tenths_iso_limits("4000 H7", &limits) == TENTHS_BAD_FIT);
    CHECK(tenths_iso_limits(NULL, &limits) == TENTHS_NULL_POINTER);
    CHECK(tenths_iso_limits("25 H7", NULL) == TENTHS_NULL_POINTER);
    CHECK(strcmp(tenths_status_text(TENTHS_BAD_FIT), "unknown status") != 0);
}

int main(void) {
    published("tests/published/iso286_limits.csv", 7, 209, limits_hold);
    published("tests/published/asme_b4_1.csv", 8, 492, inch_fit_holds);
    selection();
    rounded_js();
    joint_findings();
    faults();
    return finish();
}
