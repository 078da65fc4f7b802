/* The figures of tests/published/thread_limits.csv through the C header. Run from the root of the project. */
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
    return digits * (strcmp(figure, " in") == 0 ? INT64_C(25400000000) : INT64_C(1000000000)) / scale;
}

static int64_t quantity(const tenths_thread *thread, const char *name) {
    if (strcmp(name, "major_upper") == 0) return thread->major_upper;
    if (strcmp(name, "major_lower") == 0) return thread->major_lower;
    if (strcmp(name, "major_tolerance") == 0) return thread->major_upper - thread->major_lower;
    if (strcmp(name, "pitch_diameter_upper") == 0) return thread->pitch_diameter_upper;
    if (strcmp(name, "pitch_diameter_lower") == 0) return thread->pitch_diameter_lower;
    if (strcmp(name, "pitch_diameter_tolerance") == 0)
        return thread->pitch_diameter_upper - thread->pitch_diameter_lower;
    if (strcmp(name, "minor_upper") == 0) return thread->minor_upper;
    if (strcmp(name, "minor_lower") == 0) return thread->minor_lower;
    if (strcmp(name, "minor_tolerance") == 0) return thread->minor_upper - thread->minor_lower;
    if (strcmp(name, "allowance") == 0)
        return thread->internal ? thread->major_lower - thread->nominal : thread->nominal - thread->major_upper;
    return -1;
}

static void published(void) {
    char line[400];
    int lines = 0;
    FILE *file = fopen("tests/published/thread_limits.csv", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        char *fields[3];
        tenths_thread thread;
        int k, good;
        if (strncmp(line, "# ", 2) == 0) continue;
        fields[0] = strtok(line, ";");
        for (k = 1; k < 3; k++) fields[k] = strtok(NULL, ";");
        thread.struct_size = sizeof thread;
        good = fields[2] != NULL && tenths_thread_limits(fields[0], &thread) == TENTHS_OK
               && quantity(&thread, fields[1]) == picometres(fields[2]);
        if (!good) printf("%s %s %s\n", fields[0], fields[1], fields[2]);
        CHECK(good);
        lines++;
    }
    fclose(file);
    CHECK(lines > 500);
}

static void faults(void) {
    tenths_thread thread;
    char message[300];
    memset(&thread, 0, sizeof thread);
    CHECK(tenths_thread_limits("M8-6g", &thread) == TENTHS_BAD_STRUCT_SIZE);
    thread.struct_size = sizeof thread;
    CHECK(tenths_thread_limits("M8-6g-LH", &thread) == TENTHS_OK && thread.internal == 0 && thread.left_hand == 1);
    CHECK(thread.minor_lower == 0 && thread.thread_pitch == INT64_C(1250000000));
    CHECK(tenths_thread_limits("M8-6H", &thread) == TENTHS_OK && thread.internal == 1 && thread.left_hand == 0);
    CHECK(thread.major_upper == INT64_MAX);
    CHECK(tenths_thread_limits("M8", &thread) == TENTHS_BAD_THREAD);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "needs a tolerance class") != NULL);
    /* What failed left the struct as it was. */
    CHECK(thread.internal == 1);
    CHECK(tenths_thread_limits("\377", &thread) == TENTHS_BAD_TEXT);
    CHECK(tenths_thread_limits(NULL, &thread) == TENTHS_NULL_POINTER);
    CHECK(tenths_thread_limits("M8-6g", NULL) == TENTHS_NULL_POINTER);
    CHECK(strcmp(tenths_status_text(TENTHS_BAD_THREAD), "unknown status") != 0);
}

static void basic(void) {
    int64_t major, pitch_diameter, minor;
    CHECK(tenths_thread_basic("1/4-20 UNC", &major, &pitch_diameter, &minor) == TENTHS_OK);
    CHECK(major == INT64_C(6350000000) && pitch_diameter == INT64_C(5524500000) && minor == INT64_C(4975860000));
    CHECK(tenths_thread_basic("19/64-36 UNS-2A", &major, &pitch_diameter, &minor) == TENTHS_OK);
    CHECK(major == INT64_C(7541260000));
    CHECK(tenths_thread_basic("1/4", &major, &pitch_diameter, &minor) == TENTHS_BAD_THREAD);
    CHECK(tenths_thread_basic("M8", NULL, &pitch_diameter, &minor) == TENTHS_NULL_POINTER);
}

int main(void) {
    published();
    faults();
    basic();
    return finish();
}
