/* The figures of tests/published/positions.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 14 };

/* Picometres of a figure such as "0.2489 in": digits only, so that nothing is rounded. */
static int64_t picometres(const char *figure) {
    int64_t digits = 0, scale = 1, unit;
    int point = 0;
    for (; *figure == '.' || (*figure >= '0' && *figure <= '9'); figure++) {
        if (*figure == '.') {
            point = 1;
            continue;
        }
        digits = 10 * digits + (*figure - '0');
        if (point) scale *= 10;
    }
    unit = strcmp(figure, " in") == 0 ? INT64_C(25400000000) : INT64_C(1000000000);
    return unit % scale == 0 ? digits * (unit / scale) : -1;
}

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

static const char *given(const char *field) { return *field ? field : NULL; }

static int position_line(char **f) {
    tenths_position_check got;
    int32_t member = strcmp(f[4], "shaft") == 0 ? TENTHS_SHAFT : TENTHS_HOLE;
    tenths_status status;
    got.struct_size = sizeof got;
    status = tenths_make_position_check(f[0], f[1], given(f[2]), f[3], member, given(f[5]), given(f[6]), given(f[7]), &got);
    if (status != TENTHS_OK) return 0;
    return got.error == picometres(f[8]) && got.bonus == picometres(f[9]) && got.allowed == picometres(f[10]) &&
           strcmp(f[11], got.accepted ? "accepted" : "rejected") == 0;
}

static void published(void) {
    char line[400], *fields[FIELDS];
    int lines = 0;
    FILE *file = fopen("tests/published/positions.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        int good;
        if (strncmp(line, "# ", 2) == 0) continue;
        good = split(line, fields) == FIELDS && position_line(fields);
        if (!good) printf("%s %s %s\n", fields[0], fields[1], fields[3]);
        CHECK(good);
        lines++;
    }
    fclose(file);
    CHECK(lines >= 14);
}

static void faults(void) {
    tenths_position_check got;
    char message[300];
    const char *x = "0.03 mm", *tolerance = "0.1 mm", *limits = "12..12.15 mm";
    memset(&got, 0, sizeof got);
    CHECK(tenths_make_position_check(x, x, NULL, tolerance, 0, NULL, NULL, NULL, &got) == TENTHS_BAD_STRUCT_SIZE);
    got.struct_size = sizeof got;
    CHECK(tenths_make_position_check(x, x, NULL, tolerance, 0, NULL, NULL, NULL, &got) == TENTHS_OK && got.accepted == 1);
    CHECK(tenths_make_position_check(NULL, x, NULL, tolerance, 0, NULL, NULL, NULL, &got) == TENTHS_NULL_POINTER);
    CHECK(tenths_make_position_check(x, "1/3 in", NULL, tolerance, 0, NULL, NULL, NULL, &got) == TENTHS_BAD_SIZE);
    CHECK(tenths_make_position_check(x, x, NULL, "-0.1 mm", 0, NULL, NULL, NULL, &got) == TENTHS_NO_POSITION);
    CHECK(tenths_make_position_check(x, x, NULL, tolerance, 2, NULL, NULL, NULL, &got) == TENTHS_BAD_MEMBER);
    CHECK(tenths_make_position_check(x, x, NULL, tolerance, 0, "MMC", limits, NULL, &got) == TENTHS_NO_POSITION);
    CHECK(tenths_make_position_check(x, x, NULL, tolerance, 0, "RFS", limits, "12.1 mm", &got) == TENTHS_NO_POSITION);
    CHECK(tenths_make_position_check(x, x, NULL, tolerance, 0, "MMC", limits, "12.16 mm", &got) == TENTHS_NO_POSITION);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "is outside its limits") != NULL);
    CHECK(strcmp(tenths_status_text(TENTHS_NO_POSITION), "unknown status") != 0);
}

int main(void) {
    published();
    faults();
    return finish();
}
