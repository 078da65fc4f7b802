/* Batches: the very bits of scalar calls over columns that lie anyhow, with a status and advice for each row. */
#include "check.h"
#include "tenths.h"

#include <math.h>
#include <string.h>

enum { ROWS = 1000 };

typedef struct {
    char code[8];
    double diameter, spindle_speed, surface_speed;
} pass_of_tool;

static int same_bits(double a, double b) {
    return memcmp(&a, &b, sizeof a) == 0 || (a != a && b != b);
}

static double numbers(int k) {
    static const double odd[] = {-1.0, 0.0, 1e308, 5e-324};
    return k % 7 == 3 ? odd[k / 7 % 4] : k % 31 == 8 ? NAN : k % 37 == 5 ? INFINITY : 0.1 * k + 0.3;
}

static void array_of_structs(void) {
    static pass_of_tool passes[ROWS];
    static tenths_status statuses[ROWS];
    static uint32_t advice[ROWS];
    const tenths_column arguments[2] = {{&passes[0].diameter, sizeof *passes},
                                        {&passes[0].spindle_speed, sizeof *passes}};
    const tenths_result_column result = {&passes[0].surface_speed, sizeof *passes};
    size_t refused = 7, counted = 0;
    int k;
    for (k = 0; k < ROWS; k++) {
        passes[k].diameter = numbers(k);
        passes[k].spindle_speed = numbers(3 * k + 1);
    }
    CHECK(tenths_formula_batch("surface_speed", TENTHS_INCH, ROWS, arguments, 2, &result, 1, statuses, advice,
                               &refused, NULL) == TENTHS_OK);
    for (k = 0; k < ROWS; k++) {
        double alone;
        tenths_status status =
            tenths_surface_speed(TENTHS_INCH, passes[k].diameter, passes[k].spindle_speed, &alone);
        CHECK(statuses[k] == status && same_bits(passes[k].surface_speed, alone));
        /* A row that is refused gets no advice. */
        CHECK(status == TENTHS_OK || advice[k] == 0);
        counted += status != TENTHS_OK;
    }
    CHECK(refused == counted && counted > 100 && counted < ROWS);
}

static void in_place_and_backwards(void) {
    double column[ROWS], expected[ROWS];
    const double turns = 1500.0;
    const tenths_column arguments[2] = {{&column[ROWS - 1], -(ptrdiff_t)sizeof(double)}, {&turns, 0}};
    const tenths_result_column result = {&column[ROWS - 1], -(ptrdiff_t)sizeof(double)};
    int k;
    for (k = 0; k < ROWS; k++) {
        column[k] = numbers(k);
        tenths_surface_speed(TENTHS_METRIC, column[k], turns, &expected[k]);
    }
    CHECK(tenths_formula_batch("surface_speed", TENTHS_METRIC, ROWS, arguments, 2, &result, 1, NULL, NULL, NULL, NULL) ==
          TENTHS_OK);
    for (k = 0; k < ROWS; k++) CHECK(same_bits(column[k], expected[k]));
}

enum { MANY = 70000 };

/* The same bits, statuses, advice and count on any number of threads. */
static void on_threads(void) {
    static double diameters[MANY], alone[MANY], shared[MANY];
    static tenths_status statuses[2][MANY];
    static uint32_t advice[2][MANY];
    const double turns = 1500.0;
    const tenths_column arguments[2] = {{diameters, sizeof(double)}, {&turns, 0}};
    const tenths_result_column results[2] = {{alone, sizeof(double)}, {shared, sizeof(double)}};
    size_t refused[2] = {0, 0};
    uint32_t threads;
    int k;
    for (k = 0; k < MANY; k++) diameters[k] = numbers(k);
    CHECK(tenths_formula_batch("surface_speed", TENTHS_METRIC, MANY, arguments, 2, &results[0], 1, statuses[0], advice[0],
                               &refused[0], NULL) == TENTHS_OK);
    for (threads = 0; threads < 4; threads++) {
        memset(shared, 7, sizeof shared);
        memset(statuses[1], 7, sizeof statuses[1]);
        memset(advice[1], 7, sizeof advice[1]);
        CHECK(tenths_formula_batch_on_threads("surface_speed", TENTHS_METRIC, MANY, arguments, 2, &results[1], 1, statuses[1],
                                              advice[1], &refused[1], threads, NULL) == TENTHS_OK);
        CHECK(memcmp(statuses[0], statuses[1], sizeof statuses[0]) == 0 && memcmp(advice[0], advice[1], sizeof advice[0]) == 0);
        CHECK(refused[0] == refused[1] && refused[0] > 1000);
        for (k = 0; k < MANY; k++) CHECK(same_bits(alone[k], shared[k]));
    }
    CHECK(tenths_formula_batch_on_threads("no such", TENTHS_METRIC, MANY, arguments, 2, &results[1], 1, statuses[1], advice[1],
                                          &refused[1], 2, NULL) == TENTHS_UNKNOWN_FORMULA);
    CHECK(refused[1] == MANY && shared[MANY - 1] != shared[MANY - 1]);
}

/* A hub of 0.5 GPa in the third row: an answer, with advice on the fifth argument; a hub thinner than its shaft in
 * the second. The last argument has a default, and only two of the results are wanted. */
static void advice_and_defaults(void) {
    double outer[3] = {40.0, 15.0, 40.0}, modulus[3] = {210.0, 210.0, 0.5};
    const double interference = 0.02, twenty = 20.0, poisson = 0.3, steel = 210.0, friction = 0.1;
    const tenths_column arguments[10] = {{&interference, 0},
                                         {&twenty, 0},
                                         {outer, sizeof(double)},
                                         {&twenty, 0},
                                         {modulus, sizeof(double)},
                                         {&poisson, 0},
                                         {&steel, 0},
                                         {&poisson, 0},
                                         {&friction, 0},
                                         {NULL, 0}};
    double pressure[3], torque[3];
    tenths_result_column results[7] = {{NULL, 0}};
    tenths_status statuses[3];
    uint32_t advice[3];
    tenths_press_fit_input in;
    tenths_press_fit_output out;
    results[0].first = pressure;
    results[6].first = torque;
    results[0].stride = results[6].stride = sizeof(double);
    CHECK(tenths_formula_batch("press_fit", TENTHS_METRIC, 3, arguments, 10, results, 7, statuses, advice, NULL, NULL) ==
          TENTHS_OK);
    CHECK(statuses[0] == TENTHS_OK && statuses[1] == TENTHS_RULE && statuses[2] == TENTHS_OK);
    CHECK(advice[0] == 0 && advice[1] == 0 && advice[2] == 1u << 4);
    in.struct_size = sizeof in;
    out.struct_size = sizeof out;
    tenths_press_fit_init(TENTHS_METRIC, &in);
    in.interference = interference;
    in.diameter = in.length = twenty;
    in.hub_outer_diameter = outer[2];
    in.hub_modulus = modulus[2];
    in.shaft_modulus = steel;
    in.hub_poisson = in.shaft_poisson = poisson;
    in.friction = friction;
    CHECK(tenths_press_fit(TENTHS_METRIC, &in, &out, NULL) == TENTHS_OK);
    CHECK(same_bits(out.pressure, pressure[2]) && same_bits(out.torque, torque[2]));
    CHECK(pressure[1] != pressure[1] && torque[1] != torque[1]);
}

static int told(const char *expected) {
    char message[200];
    tenths_error_message(message, sizeof message);
    return strcmp(message, expected) == 0;
}

static void mistakes(void) {
    double one = 1.0, speed = 5.0;
    tenths_column arguments[2];
    tenths_result_column result;
    size_t refused = 9;
    arguments[0].first = arguments[1].first = &one;
    arguments[0].stride = arguments[1].stride = 0;
    result.first = &speed;
    result.stride = sizeof(double);
#define BATCH(name, units, rows, args, n, res, m) \
    tenths_formula_batch(name, units, rows, args, n, res, m, NULL, NULL, &refused, NULL)
    CHECK(BATCH("no such", 0, 1, arguments, 2, &result, 1) == TENTHS_UNKNOWN_FORMULA);
    CHECK(BATCH("\xff", 0, 1, arguments, 2, &result, 1) == TENTHS_BAD_TEXT);
    CHECK(BATCH(NULL, 0, 1, arguments, 2, &result, 1) == TENTHS_NULL_POINTER);
    CHECK(BATCH("surface_speed", 5, 1, arguments, 2, &result, 1) == TENTHS_BAD_UNITS);
    CHECK(BATCH("surface_speed", 0, 1, arguments, 1, &result, 1) == TENTHS_BAD_COUNT);
    CHECK(BATCH("surface_speed", 0, 1, arguments, 2, &result, 2) == TENTHS_BAD_COUNT);
    CHECK(BATCH("surface_speed", 0, 1, NULL, 2, &result, 1) == TENTHS_NULL_POINTER);
    CHECK(BATCH("surface_speed", 0, 1, arguments, 2, NULL, 1) == TENTHS_NULL_POINTER);
    arguments[0].first = NULL; /* the diameter has no default */
    CHECK(BATCH("surface_speed", 0, 1, arguments, 2, &result, 1) == TENTHS_NULL_POINTER);
    arguments[0].first = &one;
    arguments[0].stride = 4;
    CHECK(BATCH("surface_speed", 0, 1, arguments, 2, &result, 1) == TENTHS_BAD_COLUMN);
    arguments[0].stride = 8;
    CHECK(BATCH("surface_speed", 0, (size_t)-1 / 8, arguments, 2, &result, 1) == TENTHS_BAD_COLUMN);
    arguments[0].stride = 0;
    speed = 5.0;
    CHECK(BATCH("surface_speed", 0, 0, arguments, 2, &result, 1) == TENTHS_OK && speed == 5.0 && refused == 0);
    CHECK(BATCH("surface_speed", 0, 1, arguments, 2, &result, 1) == TENTHS_OK && speed > 0.0 && refused == 0);
    result.stride = 0;
    CHECK(BATCH("surface_speed", 0, 1, arguments, 2, &result, 1) == TENTHS_BAD_COLUMN && isnan(speed) && refused == 1);
    CHECK(told("column surface_speed needs a stride other than 0: its rows would overwrite each other"));
    result.stride = 12;
    CHECK(BATCH("surface_speed", 0, 1, arguments, 2, &result, 1) == TENTHS_BAD_COLUMN);
    CHECK(told("column surface_speed is misaligned: the address of its first number and its stride, 12 bytes, must be "
               "multiples of 8"));
    CHECK(BATCH("surfac_speed", 0, 1, arguments, 2, &result, 1) == TENTHS_UNKNOWN_FORMULA);
    CHECK(told("`surfac_speed` is not a formula. Is it `surface_speed`?"));
}

/* Refused as a whole: nothing of an earlier call is left that looks like an answer. */
static void no_stale_answers(void) {
    double speeds[ROWS], turns[ROWS];
    tenths_status statuses[ROWS];
    uint32_t advice[ROWS];
    tenths_column arguments[2] = {{NULL, 0}, {turns, sizeof(double)}};
    const tenths_result_column result = {speeds, sizeof(double)};
    size_t refused = 3;
    int k;
    for (k = 0; k < ROWS; k++) {
        speeds[k] = turns[k] = 100.0;
        statuses[k] = TENTHS_OK;
        advice[k] = 1;
    }
    CHECK(tenths_formula_batch("surface_speed", TENTHS_INCH, ROWS, arguments, 2, &result, 1, statuses, advice, &refused,
                               NULL) == TENTHS_NULL_POINTER);
    CHECK(refused == ROWS);
    for (k = 0; k < ROWS; k++) CHECK(isnan(speeds[k]) && statuses[k] == TENTHS_NULL_POINTER && advice[k] == 0);
}

static int stop_after(void *rows_left, double fraction) {
    (void)fraction;
    return --*(int *)rows_left < 0;
}

/* Stopped on the way: the rows at the front are answered, the others say that they were not reached. */
static void stopped(void) {
    enum { MANY = 4000000 };
    static double speeds[MANY];
    static tenths_status statuses[MANY];
    const double one = 1.0;
    const tenths_column arguments[2] = {{&one, 0}, {&one, 0}};
    const tenths_result_column result = {speeds, sizeof(double)};
    size_t refused = 0, row, reached = 0;
    int left = 2, in_order = 1;
    tenths_watch watch;
    watch.struct_size = sizeof watch;
    tenths_watch_init(&watch);
    watch.progress = stop_after;
    watch.context = &left;
    CHECK(tenths_formula_batch("surface_speed", TENTHS_INCH, MANY, arguments, 2, &result, 1, statuses, NULL, &refused,
                               &watch) == TENTHS_STOPPED);
    for (row = 0; row < MANY; row++) {
        int answered = statuses[row] == TENTHS_OK;
        in_order = in_order && (answered ? row == reached && speeds[row] > 0.0
                                         : statuses[row] == TENTHS_STOPPED && isnan(speeds[row]));
        reached += (size_t)answered;
    }
    CHECK(in_order && reached > 0 && reached + refused == MANY);
}

int main(void) {
    array_of_structs();
    in_place_and_backwards();
    on_threads();
    advice_and_defaults();
    mistakes();
    no_stale_answers();
    stopped();
    return finish();
}
