/* The figures of tests/published/forms.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 8, POINTS = 40 };

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

static double quantity(const tenths_form_fit *fit, const char *name) {
    if (strncmp(name, "centre_", 7) == 0) {
        size_t place = (size_t)(name[7] - 'x');
        return place < fit->centre_count ? fit->centre[place] : NAN;
    }
    if (strcmp(name, "radius") == 0) return fit->radius;
    if (strcmp(name, "half_angle") == 0) return fit->half_angle;
    return fit->deviation;
}

static int form_line(char **f) {
    double axes[3][POINTS], within = 0.501, got;
    size_t columns = (size_t)atoi(f[2]), count = 0;
    char *at = f[3];
    const char *digit = strchr(f[5], '.');
    tenths_form_fit fit;
    for (; *at != '\0'; count++) axes[count % columns][count / columns] = strtod(at, &at);
    if (digit != NULL) for (digit++; *digit != '\0'; digit++) within /= 10.0;
    fit.struct_size = sizeof fit;
    if (tenths_make_form_fit(TENTHS_METRIC, f[0], f[1], axes[0], axes[1], columns == 3 ? axes[2] : NULL, count / columns,
                             &fit) != TENTHS_OK) return 0;
    got = quantity(&fit, f[4]);
    tenths_form_fit_clear(&fit);
    return fabs(got - atof(f[5])) <= within;
}

static void published(void) {
    char line[2000], *fields[FIELDS];
    int lines = 0;
    FILE *file = fopen("tests/published/forms.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        int good;
        if (strncmp(line, "# ", 2) == 0) continue;
        good = split(line, fields) == FIELDS && form_line(fields);
        if (!good) printf("%s %s %s\n", fields[0], fields[1], fields[4]);
        CHECK(good);
        lines++;
    }
    fclose(file);
    CHECK(lines >= 23);
}

static void positions(void) {
    /* A hole of radius 6 about 30.03, 20.04, and its datum planes z = 0, x = 0 and y = 0. */
    static const double points[] = {36.03, 20.04, -4, 30.03, 26.04, -4, 24.03, 20.04, -4, 30.03, 14.04, -4,
                                    0, 0, 0, 80, 0, 0, 0, 60, 0, 0, 5, -3, 0, 55, -8, 40, 0, -5};
    tenths_hole_position got;
    char message[300];
    got.struct_size = sizeof got;
    CHECK(tenths_make_hole_position(TENTHS_METRIC, points, 10, 3, 2, 1, "30 mm", "20 mm", "0.1001 mm", TENTHS_HOLE, NULL, NULL,
                                    &got) == TENTHS_OK);
    CHECK(fabs(got.x - 30.03) < 1e-9 && fabs(got.y - 20.04) < 1e-9 && fabs(got.diameter - 12.0) < 1e-9);
    CHECK(got.check_accepted == 1);
    tenths_hole_position_clear(&got);
    CHECK(tenths_make_hole_position(TENTHS_METRIC, points, 4, 0, 0, 0, "30 mm", "20 mm", "0.05 mm", TENTHS_HOLE, NULL, NULL,
                                    &got) == TENTHS_OK);
    CHECK(got.check_accepted == 0);
    tenths_hole_position_clear(&got);
    CHECK(tenths_make_hole_position(TENTHS_METRIC, points, 10, 3, 1, 2, "30 mm", "20 mm", "0.1 mm", TENTHS_HOLE, NULL, NULL,
                                    &got) == TENTHS_NO_FORM);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "the secondary datum plane needs at least 2 points, not 1") != NULL);
    CHECK(tenths_make_hole_position(TENTHS_METRIC, points, 4, 3, 2, 1, "30 mm", "20 mm", "0.1 mm", TENTHS_HOLE, NULL, NULL,
                                    &got) == TENTHS_NO_FORM);
    CHECK(tenths_make_hole_position(TENTHS_METRIC, points, 10, 3, 2, 1, "30 mm", "20 mm", "0.1 mm", TENTHS_HOLE, "MMC", NULL,
                                    &got) == TENTHS_NO_POSITION);
}

static void faults(void) {
    static const double x[] = {1, 2, 3}, odd[] = {1, NAN, 3};
    tenths_form_fit fit;
    fit.struct_size = sizeof fit;
    CHECK(tenths_make_form_fit(TENTHS_METRIC, "circle", "least squares", x, x, NULL, 3, &fit) == TENTHS_NO_FORM);
    CHECK(tenths_make_form_fit(TENTHS_METRIC, "circle", "least squares", x, odd, NULL, 3, &fit) == TENTHS_NO_FORM);
    CHECK(tenths_make_form_fit(TENTHS_METRIC, "circle", "least squares", NULL, x, NULL, 3, &fit) == TENTHS_NULL_POINTER);
    CHECK(tenths_make_form_fit(TENTHS_METRIC, "square", "least squares", x, x, NULL, 3, &fit) == TENTHS_NO_FORM);
    CHECK(tenths_make_form_fit(7, "circle", "least squares", x, x, NULL, 3, &fit) == TENTHS_BAD_UNITS);
    CHECK(strcmp(tenths_status_text(TENTHS_NO_FORM), "unknown status") != 0);
}

int main(void) {
    published();
    positions();
    faults();
    return finish();
}
