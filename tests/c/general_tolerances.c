/* The figures of tests/published/general_tolerances.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 6 };

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

static int tolerance_line(char **f) {
    tenths_general_tolerance got;
    tenths_status status;
    int good;
    got.struct_size = sizeof got;
    status = tenths_make_general_tolerance(f[2], f[0], f[1], NULL, &got);
    if (strcmp(f[3], "none") == 0) return status == TENTHS_NO_GENERAL_TOLERANCE;
    if (status != TENTHS_OK) return 0;
    if (got.has_angle_deviation) {
        good = (int)(got.angle_deviation * 60.0 + 0.5) == atoi(f[3]);
    } else {
        good = got.tolerance / (got.has_limits ? 2 : 1) == atoi(f[3]) * INT64_C(1000000);
    }
    tenths_general_tolerance_clear(&got);
    return good;
}

static void published(void) {
    char line[400], *fields[FIELDS];
    int lines = 0;
    FILE *file = fopen("tests/published/general_tolerances.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        int good;
        if (strncmp(line, "# ", 2) == 0) continue;
        good = split(line, fields) == FIELDS && tolerance_line(fields);
        if (!good) printf("%s %s %s\n", fields[0], fields[1], fields[2]);
        CHECK(good);
        lines++;
    }
    fclose(file);
    CHECK(lines >= 250);
}

static void faults(void) {
    tenths_general_tolerance got;
    char message[300];
    memset(&got, 0, sizeof got);
    CHECK(tenths_make_general_tolerance("120 mm", "m", "length", NULL, &got) == TENTHS_BAD_STRUCT_SIZE);
    got.struct_size = sizeof got;
    CHECK(tenths_make_general_tolerance(NULL, "m", "length", NULL, &got) == TENTHS_NULL_POINTER);
    CHECK(tenths_make_general_tolerance("120", "m", "length", NULL, &got) == TENTHS_BAD_SIZE);
    CHECK(tenths_make_general_tolerance("120 mm", "K", "length", NULL, &got) == TENTHS_NO_GENERAL_TOLERANCE);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "has no class for a length") != NULL);
    CHECK(tenths_make_general_tolerance("20 mm", "fL", "parallelism", NULL, &got) == TENTHS_NO_GENERAL_TOLERANCE);
    CHECK(tenths_make_general_tolerance("20 mm", "fL", "length", "50 mm", &got) == TENTHS_NO_GENERAL_TOLERANCE);
    CHECK(tenths_make_general_tolerance("20 mm", "fL", "parallelism", "50 mm", &got) == TENTHS_OK);
    CHECK(got.tolerance == INT64_C(400000000) && !got.has_limits);
    tenths_general_tolerance_clear(&got);
    CHECK(strcmp(tenths_status_text(TENTHS_NO_GENERAL_TOLERANCE), "unknown status") != 0);
}

int main(void) {
    published();
    faults();
    return finish();
}
