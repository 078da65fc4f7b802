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
    if (strcmp(name, "major_lower") == 0) return thread->major_least;
    if (strcmp(name, "major_tolerance") == 0) return thread->major_upper - thread->major_lower;
    if (strcmp(name, "pitch_diameter_upper") == 0) return thread->pitch_diameter_upper;
    if (strcmp(name, "pitch_diameter_lower") == 0) return thread->pitch_diameter_lower;
    if (strcmp(name, "pitch_diameter_tolerance") == 0)
        return thread->pitch_diameter_upper - thread->pitch_diameter_lower;
    if (strcmp(name, "minor_upper") == 0) return thread->minor_greatest;
    if (strcmp(name, "minor_lower") == 0) return thread->minor_lower;
    if (strcmp(name, "minor_tolerance") == 0) return thread->minor_upper - thread->minor_lower;
    if (strcmp(name, "allowance") == 0)
        return thread->is_internal ? thread->major_least - thread->nominal : thread->nominal - thread->major_upper;
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
        good = fields[2] != NULL && tenths_make_thread(fields[0], &thread) == TENTHS_OK
               && quantity(&thread, fields[1]) == picometres(fields[2]);
        tenths_thread_clear(&thread);
        if (!good) printf("%s %s %s\n", fields[0], fields[1], fields[2]);
        CHECK(good);
        lines++;
    }
    fclose(file);
    CHECK(lines > 500);
}

static tenths_thread thread_of(const char *designation) {
    tenths_thread thread;
    thread.struct_size = sizeof thread;
    CHECK(tenths_make_thread(designation, &thread) == TENTHS_OK);
    tenths_thread_clear(&thread);
    return thread;
}

/* What an external or an internal thread, or one without a class, does not have is absent. */
static void absent(void) {
    tenths_thread thread = thread_of("M8-6g-LH");
    CHECK(thread.has_is_internal && !thread.is_internal && thread.is_left_hand);
    CHECK(!thread.has_minor && thread.minor_lower == 0 && thread.has_minor_greatest && thread.minor_greatest > 0);
    CHECK(thread.thread_pitch == INT64_C(1250000000));
    thread = thread_of("M8-6H");
    CHECK(thread.is_internal && !thread.is_left_hand);
    CHECK(!thread.has_major && thread.major_upper == 0 && thread.has_major_least);
    thread = thread_of("1/4-20 UNC");
    CHECK(!thread.has_is_internal && !thread.has_tolerance_class && !thread.has_pitch_diameter);
    CHECK(thread.nominal == INT64_C(6350000000) && thread.basic_pitch_diameter == INT64_C(5524500000));
    CHECK(thread.basic_minor == INT64_C(4975860000));
    CHECK(thread_of("19/64-36 UNS-2A").nominal == INT64_C(7541260000));
}

static void faults(void) {
    tenths_thread thread;
    char message[300];
    memset(&thread, 0, sizeof thread);
    CHECK(tenths_make_thread("M8-6g", &thread) == TENTHS_BAD_STRUCT_SIZE);
    thread.struct_size = sizeof thread;
    CHECK(tenths_make_thread("M8-6g", &thread) == TENTHS_OK && strcmp(thread.tolerance_class, "6g") == 0);
    CHECK(strcmp(thread.designation, "M8x1.25-6g") == 0);
    tenths_thread_clear(&thread);
    CHECK(thread.designation == NULL && thread.tolerance_class == NULL);
    CHECK(tenths_make_thread("M13-6g", &thread) == TENTHS_BAD_THREAD);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "needs a pitch") != NULL);
    /* No old values are left to be taken for its own. */
    CHECK(thread.nominal == 0 && !thread.has_major);
    CHECK(tenths_make_thread("\377", &thread) == TENTHS_BAD_TEXT);
    CHECK(tenths_make_thread(NULL, &thread) == TENTHS_NULL_POINTER);
    CHECK(tenths_make_thread("M8-6g", NULL) == TENTHS_NULL_POINTER);
    CHECK(strcmp(tenths_status_text(TENTHS_BAD_THREAD), "unknown status") != 0);
}

int main(void) {
    published();
    absent();
    faults();
    return finish();
}
