/* Locators and clamps through the C header; the sets of tests/published/locating.csv. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LOCATORS = 12 };

/* Reads rows of six numbers, parted by |, up to a semicolon; tells how many. */
static size_t rows(char **at, double *first, double *second) {
    size_t count = 0;
    while (**at != ';' && **at != '\0') {
        int k;
        for (k = 0; k < 6; k++) (k < 3 ? first : second)[3 * count + (size_t)(k % 3)] = strtod(*at, at);
        count++;
        if (**at == '|') (*at)++;
    }
    return count;
}

static int line_holds(char *at) {
    double positions[3 * LOCATORS], normals[3 * LOCATORS], slides[18], turns[18];
    size_t count = rows(&at, positions, normals), held, free_count, k, j;
    tenths_locating made;
    int good;
    held = (size_t)strtol(at + 1, &at, 10);
    at++;
    free_count = rows(&at, slides, turns);
    made.struct_size = sizeof made;
    if (tenths_make_locating(TENTHS_METRIC, positions, normals, count, NULL, NULL, NULL, 0, 0.0, &made) != TENTHS_OK) return 0;
    good = made.held == (int64_t)held && made.redundant == (int64_t)(count - held) && made.free_count == free_count;
    for (k = 0; good && k < free_count; k++) {
        for (j = 0; j < 3; j++) {
            good &= fabs(made.free[k].translation[j] - slides[3 * k + j]) < 1e-6;
            good &= fabs(made.free[k].rotation[j] - turns[3 * k + j]) < 1e-6;
        }
    }
    tenths_locating_clear(&made);
    return good;
}

static void published(void) {
    char line[4000];
    int lines = 0;
    FILE *file = fopen("tests/published/locating.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        int good;
        if (strncmp(line, "# ", 2) == 0) continue;
        good = line_holds(line);
        if (!good) printf("%s", line);
        CHECK(good);
        lines++;
    }
    fclose(file);
    CHECK(lines >= 7);
}

static void locating(void) {
    static const double rests[] = {0, 0, 0, 100, 0, 0, 50, 80, 0}, start[] = {20, 0, 10}, end[] = {80, 0, 10}, y[] = {0, 1, 0};
    static const double clamp_at[] = {50, 30, 20, 50, 60, 10, 100, 40, 10}, clamp_to[] = {0, 0, -1, 0, -1, 0, -1, 0, 0};
    static const double errors[] = {0.1, 0.1, 0.1, 0, 0, 0}, at[] = {30, 30, 50}, z[] = {0, 0, 1}, forces[] = {5, 2, 1};
    double positions[18], normals[18], shift[3], shares[6], sum = 0.0;
    char message[300];
    tenths_locating made;
    size_t k;
    made.struct_size = sizeof made;
    CHECK(tenths_plane_contact(rests, positions, normals) == TENTHS_OK);
    CHECK(tenths_line_contact(start, end, y, positions + 9, normals + 9) == TENTHS_OK);
    for (k = 15; k < 18; k++) positions[k] = 40.0 * (k == 16) + 10.0 * (k == 17), normals[k] = k == 15;
    CHECK(tenths_make_locating(TENTHS_METRIC, positions, normals, 6, clamp_at, clamp_to, forces, 3, 0.0, &made) == TENTHS_OK);
    CHECK(made.held == 6 && made.free_count == 0 && made.has_seats == 1 && made.seats == 1);
    CHECK(made.forces_count == 6 && fabs(made.forces[5] - 1.0) < 1e-9 && fabs(made.forces[3] - 1.0) < 1e-9);
    tenths_locating_clear(&made);
    CHECK(tenths_make_locating(TENTHS_INCH, positions, normals, 5, NULL, NULL, NULL, 0, 0.0, &made) == TENTHS_OK);
    CHECK(made.free_count == 1 && strcmp(made.free[0].words, "slides along x") == 0 && made.has_seats == 0);
    tenths_locating_clear(&made);
    CHECK(tenths_locating_shift(positions, normals, errors, 6, at, shift) == TENTHS_OK);
    CHECK(fabs(shift[0]) < 1e-12 && fabs(shift[1]) < 1e-12 && fabs(shift[2] - 0.1) < 1e-12);
    CHECK(tenths_locating_sensitivities(positions, normals, 6, at, z, shares) == TENTHS_OK);
    for (k = 0; k < 3; k++) sum += shares[k];
    CHECK(fabs(sum - 1.0) < 1e-12);
    CHECK(tenths_locating_shift(positions, normals, errors, 5, at, shift) == TENTHS_NO_LOCATING && isnan(shift[0]));
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "the part slides along x") != NULL);
    CHECK(tenths_two_pins(rests, rests + 3, z, positions, normals) == TENTHS_OK && normals[0] == 1.0 && normals[7] == 1.0);
    CHECK(tenths_vee_block(start, end, z, 40.0, 90.0, positions, normals) == TENTHS_OK && fabs(normals[2] - sqrt(0.5)) < 1e-12);
    CHECK(tenths_vee_block(start, end, z, 40.0, 180.0, positions, normals) == TENTHS_NO_LOCATING && isnan(positions[0]));
}

static void clamping(void) {
    static const double toggle[] = {100, 5}, screw[] = {60, 12};
    tenths_clamping_options options;
    tenths_clamp_safety made;
    double force;
    made.struct_size = sizeof made;
    options.struct_size = sizeof options;
    CHECK(tenths_clamp_force(TENTHS_METRIC, "toggle", toggle, 2, &force) == TENTHS_OK && fabs(force - 571.5) < 0.05);
    CHECK(tenths_clamp_force(TENTHS_METRIC, "screw", screw, 2, &force) == TENTHS_OK && fabs(force - 25000.0) < 1e-6);
    CHECK(tenths_clamp_force(TENTHS_METRIC, "bolt", screw, 2, &force) == TENTHS_NO_CLAMP && isnan(force));
    CHECK(tenths_clamp_force(TENTHS_METRIC, "screw", screw, 1, &force) == TENTHS_BAD_COUNT);
    CHECK(tenths_make_clamp_safety(TENTHS_METRIC, "vice", 9375, 1500, 0, 0, 0.2, NULL, &made) == TENTHS_OK);
    CHECK(fabs(made.safety - 2.5) < 1e-12 && made.enough == 1 && made.has_lift == 0);
    CHECK(fabs(made.required_force - 7500.0) < 1e-9 && strstr(made.caution, "is thrown") != NULL);
    tenths_clamp_safety_clear(&made);
    CHECK(tenths_clamping_options_init(&options) == TENTHS_OK);
    options.force_diameter = 80, options.grip_diameter = 60, options.grip_lost = 26647.9319;
    CHECK(tenths_make_clamp_safety(TENTHS_METRIC, "chuck", 60000, 3000, 3000, 0, 0.2, &options, &made) == TENTHS_OK);
    CHECK(fabs(made.safety - 6670.41362 / 5000.0) < 1e-9 && made.bound_by == TENTHS_CLAMP_SAFETY_BOUND_BY_SLIP);
    tenths_clamp_safety_clear(&made);
    options.grip_lost = 60000;
    CHECK(tenths_make_clamp_safety(TENTHS_METRIC, "chuck", 60000, 3000, 0, 0, 0.2, &options, &made) == TENTHS_RULE);
    CHECK(tenths_make_clamp_safety(TENTHS_METRIC, "magnet", 60000, 3000, 0, 0, 0.2, NULL, &made) == TENTHS_NO_CLAMP);
}

int main(void) {
    published();
    locating();
    clamping();
    return finish();
}
