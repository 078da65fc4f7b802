/* Tolerance charts through the C header; the figures are those of tests/tolerance_charts.rs. */
#include "check.h"
#include "tenths.h"
#include <string.h>

enum { LEFT_END, SHOULDER, RIGHT_END };
static const int64_t thou = INT64_C(25400000);

static const tenths_chart_face faces[] = {
    {TENTHS_FACING_LEFT, 0}, {TENTHS_FACING_RIGHT, 0}, {TENTHS_FACING_RIGHT, 0}};

/* Limits of a mean and half a tolerance in thousandths of an inch. */
static tenths_chart_dimension drawn(int32_t face, int32_t from, int64_t mean, int64_t half) {
    tenths_chart_dimension d;
    d.face = face;
    d.from = from;
    d.lower = (mean - half) * thou;
    d.upper = (mean + half) * thou;
    return d;
}

static tenths_chart_step open_step(int32_t face, int32_t from, int64_t holds, int64_t least_removal) {
    tenths_chart_step s;
    memset(&s, 0, sizeof s);
    s.face = face;
    s.from = from;
    s.holds = holds * thou;
    s.least_removal = least_removal * thou;
    return s;
}

static int lies(const tenths_chart_row *row, int64_t mean, int64_t half) {
    return row->has_limits && row->limits_lower == (mean - half) * thou && row->limits_upper == (mean + half) * thou;
}

static int comes_to(const tenths_chart_row *row, int64_t mean, int64_t half, int32_t good) {
    return row->has_made && row->made_lower == (mean - half) * thou && row->made_upper == (mean + half) * thou
           && row->has_good && row->good == good;
}

static int has_signs(const tenths_chart_row *row, int64_t a, int64_t b, int64_t c, int64_t d, int64_t e) {
    const int64_t *s = row->signs;
    return row->signs_count == 5 && s[0] == a && s[1] == b && s[2] == c && s[3] == d && s[4] == e;
}

/* A shouldered pin, worked by hand in tests/tolerance_charts.rs: derived, then evaluated as it was derived, then with too
 * little stock. */
static void pin(void) {
    tenths_chart_step stock[1], cuts[4];
    tenths_chart_dimension drawing[2];
    tenths_chart_result result;
    char message[300];
    size_t k;
    result.struct_size = sizeof result;
    stock[0] = open_step(RIGHT_END, LEFT_END, 60, 0);
    cuts[0] = open_step(LEFT_END, RIGHT_END, 10, 20);
    cuts[1] = open_step(RIGHT_END, LEFT_END, 4, 15);
    cuts[2] = open_step(SHOULDER, LEFT_END, 4, 0);
    cuts[3] = open_step(SHOULDER, RIGHT_END, 2, 8);
    drawing[0] = drawn(RIGHT_END, LEFT_END, 4000, 5);
    drawing[1] = drawn(SHOULDER, RIGHT_END, 1500, 4);
    CHECK(tenths_make_chart_result(faces, 3, stock, 1, cuts, 4, drawing, 2, 0, &result) == TENTHS_BAD_CHART);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "there are no limits") != NULL);
    CHECK(result.good == 0 && result.working == NULL && result.working_count == 0);
    CHECK(tenths_make_chart_result(faces, 3, stock, 1, cuts, 4, drawing, 2, thou, &result) == TENTHS_OK);
    CHECK(result.good == 1 && result.findings_count == 0 && result.findings == NULL);
    CHECK(result.working_count == 5 && lies(result.working, 4080, 30) && lies(result.working + 1, 4025, 5));
    CHECK(lies(result.working + 2, 4000, 5) && lies(result.working + 3, 2519, 2) && lies(result.working + 4, 1500, 4));
    CHECK(result.dimensions_count == 2 && comes_to(result.dimensions, 4000, 5, 1));
    CHECK(comes_to(result.dimensions + 1, 1500, 4, 1) && strcmp(result.dimensions[1].name, "1") == 0);
    CHECK(result.removals_count == 3 && result.removals[2].number == 3);
    CHECK(comes_to(result.removals, 55, 35, 1) && comes_to(result.removals + 1, 25, 10, 1));
    CHECK(comes_to(result.removals + 2, 19, 11, 1) && result.removals[2].has_lower_margin);
    CHECK(result.removals[2].lower_margin == 0 && !result.removals[2].has_upper_margin);
    CHECK(result.facings_count == 3 && result.facings[0] == TENTHS_FACING_LEFT && result.facings[1] == TENTHS_FACING_RIGHT);
    /* What was given stays as it was; the derived limits are evaluated as they are. */
    CHECK(cuts[0].holds == 10 * thou && cuts[0].lower == 0);
    stock[0].holds = 0;
    stock[0].lower = result.working[0].limits_lower;
    stock[0].upper = result.working[0].limits_upper;
    for (k = 0; k < 4; k++) {
        cuts[k].holds = 0;
        cuts[k].lower = result.working[k + 1].limits_lower;
        cuts[k].upper = result.working[k + 1].limits_upper;
    }
    tenths_chart_result_clear(&result);
    CHECK(result.working == NULL && result.faces == NULL && result.faces_count == 0);

    cuts[2].lower -= 4 * thou;
    cuts[2].upper -= 4 * thou;
    CHECK(tenths_make_chart_result(faces, 3, stock, 1, cuts, 4, drawing, 2, 0, &result) == TENTHS_OK);
    /* Working dimensions: stock, facing left, facing right, turning, grinding. */
    CHECK(has_signs(result.dimensions, 0, 0, 1, 0, 0) && has_signs(result.dimensions + 1, 0, 0, 0, 0, 1));
    CHECK(has_signs(result.removals, 1, -1, 0, 0, 0) && has_signs(result.removals + 1, 0, 1, -1, 0, 0));
    CHECK(has_signs(result.removals + 2, 0, 0, -1, 1, 1));
    CHECK(comes_to(result.removals + 2, 15, 11, 0) && result.removals[2].lower_margin == -4 * thou);
    CHECK(!result.good && result.findings_count == 1 && strcmp(result.findings[0].place, "/cuts/3") == 0);
    tenths_chart_result_clear(&result);
    cuts[3].upper += thou;
    CHECK(tenths_make_chart_result(faces, 3, stock, 1, cuts, 4, drawing, 2, 0, &result) == TENTHS_OK);
    CHECK(result.dimensions[1].good == 0 && result.dimensions[1].upper_margin == -thou);
    CHECK(result.dimensions[1].lower_margin == 0);
    tenths_chart_result_clear(&result);
}

static void faults(void) {
    tenths_chart_step stock[1];
    tenths_chart_face bad[2] = {{TENTHS_FACING_LEFT, 0}, {5, 0}};
    tenths_chart_result result;
    result.struct_size = sizeof result;
    stock[0] = open_step(SHOULDER, LEFT_END, 0, 0);
    stock[0].lower = stock[0].upper = thou;
    CHECK(tenths_make_chart_result(faces, 3, stock, 1, NULL, 0, NULL, 0, 0, &result) == TENTHS_OK);
    tenths_chart_result_clear(&result);
    CHECK(tenths_make_chart_result(faces, 3, stock, 1, NULL, 1, NULL, 0, 0, &result) == TENTHS_NULL_POINTER);
    CHECK(tenths_make_chart_result(faces, 3, stock, 1, NULL, 0, NULL, 0, 0, NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_make_chart_result(faces, 201, stock, 1, NULL, 0, NULL, 0, 0, &result) == TENTHS_BAD_CHART);
    CHECK(tenths_make_chart_result(bad, 2, NULL, 0, NULL, 0, NULL, 0, 0, &result) == TENTHS_BAD_CHART);
    CHECK(tenths_make_chart_result(faces, 1, stock, 1, NULL, 0, NULL, 0, 0, &result) == TENTHS_BAD_CHART);
    stock[0].lower++;
    CHECK(tenths_make_chart_result(faces, 3, stock, 1, NULL, 0, NULL, 0, 0, &result) == TENTHS_BAD_SIZE);
    CHECK(tenths_make_chart_result(faces, 3, NULL, 0, NULL, 0, NULL, 0, -1, &result) == TENTHS_BAD_CHART);
    CHECK(strcmp(tenths_status_text(TENTHS_BAD_CHART), "unknown status") != 0);
}

int main(void) {
    pin();
    faults();
    return finish();
}
