/* Tolerance charts through the C header; the figures are those of tests/operations.rs. */
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

static int lies(const tenths_chart_step *s, int64_t mean, int64_t half) {
    return s->lower == (mean - half) * thou && s->upper == (mean + half) * thou;
}

static int comes_to(const tenths_chart_outcome *o, int64_t mean, int64_t half, int32_t good) {
    return o->lower == (mean - half) * thou && o->upper == (mean + half) * thou && o->good == good;
}

/* A shouldered pin, worked by hand in tests/operations.rs: derived, then evaluated as it was derived, then with too
 * little stock. */
static void pin(void) {
    tenths_chart_step stock[1], cuts[4];
    tenths_chart_dimension drawing[2];
    tenths_chart_outcome dimensions[2], removals[4];
    int8_t chains[30];
    /* Columns: stock, facing left, facing right, turning, grinding. */
    static const int8_t expected[30] = {
        0, 0, 1, 0, 0,   0, 0, 0, 0, 1,                                   /* the drawing */
        1, -1, 0, 0, 0,  0, 1, -1, 0, 0,  0, 0, 0, 0, 0,  0, 0, -1, 1, 1, /* the cuts */
    };
    char message[300];
    size_t k;
    stock[0] = open_step(RIGHT_END, LEFT_END, 60, 0);
    cuts[0] = open_step(LEFT_END, RIGHT_END, 10, 20);
    cuts[1] = open_step(RIGHT_END, LEFT_END, 4, 15);
    cuts[2] = open_step(SHOULDER, LEFT_END, 4, 0);
    cuts[3] = open_step(SHOULDER, RIGHT_END, 2, 8);
    drawing[0] = drawn(RIGHT_END, LEFT_END, 4000, 5);
    drawing[1] = drawn(SHOULDER, RIGHT_END, 1500, 4);
    CHECK(tenths_evaluate_chart(faces, 3, stock, 1, cuts, 4, drawing, 2, dimensions, removals, NULL, 0) == TENTHS_BAD_CHART);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "there are no limits") != NULL);
    CHECK(tenths_derive_chart(faces, 3, stock, 1, cuts, 4, drawing, 2, thou, dimensions, removals) == TENTHS_OK);
    CHECK(lies(stock, 4080, 30));
    CHECK(lies(cuts, 4025, 5) && lies(cuts + 1, 4000, 5) && lies(cuts + 2, 2519, 2) && lies(cuts + 3, 1500, 4));
    CHECK(comes_to(dimensions, 4000, 5, 1) && comes_to(dimensions + 1, 1500, 4, 1));
    CHECK(comes_to(removals, 55, 35, 1) && comes_to(removals + 1, 25, 10, 1) && comes_to(removals + 3, 19, 11, 1));
    CHECK(removals[2].good == -1 && removals[2].lower == 0 && removals[3].lower_margin == 0);

    stock[0].holds = 0;
    for (k = 0; k < 4; k++) cuts[k].holds = 0;
    cuts[2].lower -= 4 * thou;
    cuts[2].upper -= 4 * thou;
    memset(chains, 7, sizeof chains);
    CHECK(tenths_evaluate_chart(faces, 3, stock, 1, cuts, 4, drawing, 2, dimensions, removals, chains, 29) == TENTHS_BAD_COUNT);
    CHECK(chains[0] == 7);
    CHECK(tenths_evaluate_chart(faces, 3, stock, 1, cuts, 4, drawing, 2, dimensions, removals, chains, 30) == TENTHS_OK);
    CHECK(memcmp(chains, expected, sizeof chains) == 0);
    CHECK(comes_to(removals + 3, 15, 11, 0) && removals[3].lower_margin == -4 * thou);
    cuts[3].upper += thou;
    CHECK(tenths_evaluate_chart(faces, 3, stock, 1, cuts, 4, drawing, 2, dimensions, removals, NULL, 0) == TENTHS_OK);
    CHECK(dimensions[1].good == 0 && dimensions[1].upper_margin == -thou && dimensions[1].lower_margin == 0);
}

static void faults(void) {
    tenths_chart_step stock[1];
    tenths_chart_face bad[2] = {{TENTHS_FACING_LEFT, 0}, {5, 0}};
    tenths_chart_dimension drawing[1];
    tenths_chart_outcome dimension;
    stock[0] = open_step(SHOULDER, LEFT_END, 0, 0);
    stock[0].lower = stock[0].upper = thou;
    drawing[0] = drawn(SHOULDER, LEFT_END, 1, 0);
    CHECK(tenths_evaluate_chart(faces, 3, stock, 1, NULL, 0, NULL, 0, NULL, NULL, NULL, 0) == TENTHS_OK);
    CHECK(tenths_evaluate_chart(faces, 3, stock, 1, NULL, 1, NULL, 0, NULL, NULL, NULL, 0) == TENTHS_NULL_POINTER);
    CHECK(tenths_evaluate_chart(faces, 3, stock, 1, NULL, 0, drawing, 1, NULL, NULL, NULL, 0) == TENTHS_NULL_POINTER);
    CHECK(tenths_evaluate_chart(faces, 3, stock, 1, NULL, 0, drawing, 1, &dimension, NULL, NULL, 0) == TENTHS_OK);
    CHECK(tenths_evaluate_chart(faces, 201, stock, 1, NULL, 0, NULL, 0, NULL, NULL, NULL, 0) == TENTHS_BAD_CHART);
    CHECK(tenths_evaluate_chart(bad, 2, NULL, 0, NULL, 0, NULL, 0, NULL, NULL, NULL, 0) == TENTHS_BAD_CHART);
    CHECK(tenths_evaluate_chart(faces, 1, stock, 1, NULL, 0, NULL, 0, NULL, NULL, NULL, 0) == TENTHS_BAD_CHART);
    stock[0].lower++;
    CHECK(tenths_evaluate_chart(faces, 3, stock, 1, NULL, 0, NULL, 0, NULL, NULL, NULL, 0) == TENTHS_BAD_SIZE);
    CHECK(tenths_derive_chart(faces, 3, NULL, 0, NULL, 0, NULL, 0, 0, NULL, NULL) == TENTHS_BAD_CHART);
    CHECK(strcmp(tenths_status_text(TENTHS_BAD_CHART), "unknown status") != 0);
}

int main(void) {
    pin();
    faults();
    return finish();
}
