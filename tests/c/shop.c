/* Limits, gauges, the geared head, tool life, machines and the plan through the C header. Run from the project's root. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static void limits(void) {
    int32_t good = -1;
    double readings[4] = {1.415, 1.425, 1.4251, 0.0};
    uint8_t accepted[4] = {9, 9, 9, 9};
    readings[3] = NAN;
    CHECK(tenths_limits_accept("1.420 \302\261.005 in", "1.425 in", &good) == TENTHS_OK && good == 1);
    CHECK(tenths_limits_accept("1.420 \302\261.005 in", "1.4251 in", &good) == TENTHS_OK && good == 0);
    CHECK(tenths_limits_accept("1.420 +/-.005 in", "1.415 in", &good) == TENTHS_OK && good == 1);
    CHECK(tenths_limits_accept("1.420 in", "1.425 in", &good) == TENTHS_BAD_SIZE && good == 0);
    CHECK(tenths_limits_accept("\377", "1.425 in", &good) == TENTHS_BAD_TEXT);
    CHECK(tenths_limits_accept(NULL, "1.425 in", &good) == TENTHS_NULL_POINTER);
    CHECK(tenths_limits_accept("1..2 in", NULL, &good) == TENTHS_NULL_POINTER);
    CHECK(tenths_limits_accept("1..2 in", "1 in", NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_limits_accept_readings(TENTHS_INCH, "1.420 +/-.005 in", 0.0, readings, 4, accepted) == TENTHS_OK);
    CHECK(accepted[0] == 1 && accepted[1] == 1 && accepted[2] == 0 && accepted[3] == 0);
    CHECK(tenths_limits_accept_readings(TENTHS_INCH, "1..2 in", -1.0, readings, 4, accepted) == TENTHS_BAD_SIZE);
    CHECK(tenths_limits_accept_readings(TENTHS_INCH, "1..2 in", NAN, readings, 4, accepted) == TENTHS_BAD_SIZE);
    CHECK(tenths_limits_accept_readings(7, "1..2 in", 0.0, readings, 4, accepted) == TENTHS_BAD_UNITS);
    CHECK(tenths_limits_accept_readings(TENTHS_INCH, "1..2 in", 0.0, NULL, 4, accepted) == TENTHS_NULL_POINTER);
    CHECK(tenths_limits_accept_readings(TENTHS_INCH, "1..2 in", 0.0, NULL, 0, NULL) == TENTHS_OK);

    /* The ends, for two comparisons in a loop of the caller's. */
    double least, greatest;
    CHECK(tenths_limits_ends("1.420 +/-.005 in", TENTHS_INCH, 0.0, &least, &greatest) == TENTHS_OK);
    CHECK(nextafter(least, 0.0) < 1.415 && least <= 1.415 && greatest >= 1.425 && greatest < 1.4250000001);
    CHECK(tenths_limits_ends("1..2 in", TENTHS_INCH, -1.0, &least, &greatest) == TENTHS_BAD_SIZE && isnan(least));

    /* Limits of its own for each reading. */
    const double judged[] = {1.425, 1.4251, 1.0, NAN}, from[] = {1.415, 1.415, -INFINITY, 0.0};
    double to[] = {1.425, 1.425, INFINITY, 1.0};
    uint8_t verdicts[] = {7, 7, 7, 7};
    CHECK(tenths_readings_accept(TENTHS_INCH, from, to, 0.0, judged, 4, verdicts) == TENTHS_OK);
    CHECK(verdicts[0] == 1 && verdicts[1] == 0 && verdicts[2] == 1 && verdicts[3] == 0);
    to[1] = 1.0;
    CHECK(tenths_readings_accept(TENTHS_INCH, from, to, 0.001, judged, 4, verdicts) == TENTHS_BAD_SIZE);
    char message[200];
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "row 1: the lower limit, 1.415 in, is above the upper limit, 1 in") != NULL);
    CHECK(verdicts[0] == 0 && verdicts[2] == 0);
    CHECK(tenths_readings_accept(TENTHS_INCH, from, to, 0.0, judged, 4, NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_readings_accept(TENTHS_INCH, NULL, NULL, 0.0, NULL, 0, NULL) == TENTHS_OK);
}

static void gauges(void) {
    tenths_gauge gauge;
    memset(&gauge, 0, sizeof gauge);
    CHECK(tenths_plug_gauge("12 +0.018/0 mm", &gauge) == TENTHS_BAD_STRUCT_SIZE);
    gauge.struct_size = sizeof gauge;
    /* ASME B89.1.5: class XX is 0.000020 in = 508 000 pm at 12 mm, and 5 percent of 0.018 mm is 0.0000354 in. */
    CHECK(tenths_plug_gauge("12 +0.018/0 mm", &gauge) == TENTHS_OK);
    CHECK(gauge.gagemaker_class == 1 && gauge.basis == 0);
    CHECK(gauge.go_limits_lower == INT64_C(12000000000) && gauge.go_limits_upper == INT64_C(12000508000));
    CHECK(gauge.no_go_limits_lower == INT64_C(12017492000) && gauge.no_go_limits_upper == INT64_C(12018000000));
    tenths_gauge_clear(&gauge);
    CHECK(tenths_ring_gauge("12 +0/-0.018 mm", &gauge) == TENTHS_OK);
    CHECK(gauge.basis == 1 && gauge.go_limits_upper == INT64_C(12000000000));
    tenths_gauge_clear(&gauge);
    CHECK(tenths_length_gauge("12 +/-0.1 mm", &gauge) == TENTHS_OK);
    tenths_gauge_clear(&gauge);
    CHECK(tenths_length_gauge("12 +/-0.0001 mm", &gauge) == TENTHS_NO_GAUGE);
    CHECK(tenths_plug_gauge("12 +0.018/0 mm", NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_plug_gauge(NULL, &gauge) == TENTHS_NULL_POINTER);
}

static void plan(void) {
    static char text[65536];
    char *sheet = NULL;
    char message[2000];
    size_t length;
    FILE *file = fopen("examples/plans/roller_axle.json", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    length = fread(text, 1, sizeof text, file);
    fclose(file);
    CHECK(tenths_plan_evaluate(text, length, &sheet) == TENTHS_OK && sheet != NULL);
    /* (3000 - 10 - 60) / (148.3 + 0.5 + 1.6) = 19.48 */
    if (sheet != NULL) CHECK(strstr(sheet, "\"parts_per_bar\":19,") != NULL);
    tenths_text_free(sheet);
    CHECK(tenths_plan_markdown(text, length, &sheet) == TENTHS_OK && sheet != NULL);
    if (sheet != NULL) CHECK(strstr(sheet, "19 parts from a bar") != NULL);
    tenths_text_free(sheet);
    CHECK(tenths_plan_schema(&sheet) == TENTHS_OK && sheet != NULL);
    CHECK(sheet != NULL && strstr(sheet, "\"$schema\"") != NULL && strstr(sheet, "\"mill_flats\"") != NULL);
    tenths_text_free(sheet);
    CHECK(tenths_plan_schema(NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_plan_evaluate("{\"units\": \"furlong\"}", 20, &sheet) == TENTHS_PLAN_FAULTS && sheet == NULL);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "/units") != NULL && strstr(message, "/part") != NULL);
    CHECK(tenths_plan_evaluate("\377", 1, &sheet) == TENTHS_BAD_TEXT && sheet == NULL);
    CHECK(tenths_plan_evaluate("", 0, &sheet) == TENTHS_PLAN_FAULTS);
    CHECK(tenths_plan_evaluate(NULL, 4, &sheet) == TENTHS_NULL_POINTER);
    CHECK(tenths_plan_evaluate(text, (size_t)-1, &sheet) == TENTHS_BAD_LENGTH);
    CHECK(tenths_plan_evaluate(text, length, NULL) == TENTHS_NULL_POINTER);
    tenths_text_free(NULL);
}

/* Every kind of sheet in every format, of a plan and of a sheet that was written; tests/sheets.rs checks what they show. */
static void sheets(void) {
    static const char *const kinds[] = {"process", "cards", "setups", "tools", "cut_list", "gauges", "first_article"};
    static const char unpriced[] = "{\"tenths_plan\": 1, \"units\": \"metric\", \"part\": {\"name\": \"Pin\", \"quantity\": 4},"
                                   " \"material\": {\"designation\": \"SAE 1045\"}, \"operations\": [{\"kind\": \"saw\", \"makes\": [1]}],"
                                   " \"characteristics\": [{\"number\": 1, \"kind\": \"length\", \"limits\": \"60 +0.3/-0.3 mm\"},"
                                   " {\"number\": 2, \"kind\": \"diameter\", \"limits\": \"12 h9\"}]}";
    static char plan[65536];
    char *sheet = NULL, *text = NULL, *again = NULL;
    size_t length, kind;
    char message[400];
    FILE *file = fopen("examples/plans/roller_axle.json", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    length = fread(plan, 1, sizeof plan, file);
    fclose(file);
    CHECK(tenths_plan_evaluate(plan, length, &sheet) == TENTHS_OK && sheet != NULL);
    if (sheet == NULL) return;
    for (kind = 0; kind < sizeof kinds / sizeof *kinds; kind++) {
        CHECK(tenths_plan_sheet(plan, length, kinds[kind], "html", &text) == TENTHS_OK && text != NULL);
        CHECK(tenths_sheet_text(sheet, strlen(sheet), kinds[kind], "html", &again) == TENTHS_OK && again != NULL);
        if (text != NULL && again != NULL) {
            CHECK(strcmp(text, again) == 0 && strstr(text, "@page") != NULL && strstr(text, "://") == NULL);
        }
        tenths_text_free(text);
        tenths_text_free(again);
    }
    CHECK(tenths_sheet_text(sheet, strlen(sheet), NULL, "json", &again) == TENTHS_OK && again != NULL);
    if (again != NULL) CHECK(strcmp(sheet, again) == 0);
    tenths_text_free(again);
    CHECK(tenths_sheet_text(sheet, strlen(sheet), NULL, NULL, &again) == TENTHS_OK && again != NULL);
    if (again != NULL) CHECK(strstr(again, "# Process sheet: Roller axle") != NULL);
    tenths_text_free(again);
    CHECK(tenths_sheet_text("{\"tenths_sheet\": 2}", 19, NULL, NULL, &again) == TENTHS_PLAN_FAULTS && again == NULL);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "/tenths_sheet") != NULL);
    CHECK(tenths_plan_sheet(plan, length, "card", NULL, &text) == TENTHS_BAD_CHOICE && text == NULL);
    CHECK(tenths_plan_sheet(plan, length, NULL, "pdf", &text) == TENTHS_BAD_CHOICE && text == NULL);
    CHECK(tenths_plan_sheet(plan, length, "quote", NULL, &text) == TENTHS_OK && text != NULL);
    if (text != NULL) CHECK(strstr(text, "Price each") != NULL);
    tenths_text_free(text);
    CHECK(tenths_plan_sheet(unpriced, strlen(unpriced), "quote", NULL, &text) == TENTHS_NO_SHEET && text == NULL);
    CHECK(tenths_sheet_text(NULL, 1, NULL, NULL, &text) == TENTHS_NULL_POINTER);
    CHECK(tenths_plan_changes(plan, length, plan, length, &text) == TENTHS_OK && text != NULL && strcmp(text, "[]") == 0);
    tenths_text_free(text);
    {
        char *bars = strstr(sheet, "\"bars\":14");
        char *newer = malloc(strlen(sheet) + 1);
        CHECK(bars != NULL && newer != NULL);
        if (bars != NULL && newer != NULL) {
            strcpy(newer, sheet);
            newer[bars - sheet + 8] = '5';
            CHECK(tenths_sheet_changes(sheet, strlen(sheet), newer, strlen(newer), &text) == TENTHS_OK && text != NULL);
            if (text != NULL) CHECK(strcmp(text, "[{\"place\":\"/bar/bars\",\"old\":14,\"new\":15}]") == 0);
            tenths_text_free(text);
        }
        free(newer);
    }
    CHECK(tenths_plan_changes(plan, length, NULL, 0, &text) == TENTHS_NULL_POINTER && text == NULL);
    tenths_text_free(sheet);
    CHECK(tenths_sheet_schema(&sheet) == TENTHS_OK && sheet != NULL && strstr(sheet, "\"tenths_sheet\"") != NULL);
    tenths_text_free(sheet);
    CHECK(tenths_sheet_schema(NULL) == TENTHS_NULL_POINTER);
}

/* A plan whose numbers vary; tests/plan_propagation.rs checks the figures. */
static void propagation(void) {
    static char text[65536];
    static const char variation[] =
        "{\"count\": 500, \"varying\": [{\"place\": \"/joint/length\", \"nominal\": 18, \"plus\": 0, \"minus\": 0}],"
        " \"outputs\": [\"/bar/parts_per_bar\"]}";
    static const char nowhere[] =
        "{\"count\": 1, \"varying\": [{\"place\": \"/joint/lenght\", \"nominal\": 1, \"plus\": 0, \"minus\": 0}]}";
    char *told = NULL;
    char message[2000];
    size_t length;
    FILE *file = fopen("examples/plans/roller_axle.json", "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    length = fread(text, 1, sizeof text, file);
    fclose(file);
    CHECK(tenths_plan_propagate(text, length, variation, sizeof variation - 1, NULL, &told) == TENTHS_OK && told != NULL);
    /* What does not vary is found every time. */
    if (told != NULL) {
        CHECK(strstr(told, "\"code\":\"outside_recommendation\"") != NULL);
        CHECK(strstr(told, "\"share\":{\"count\":500,\"fraction\":1.0,") != NULL);
        CHECK(strstr(told, "\"minimum\":19.0,\"maximum\":19.0") != NULL);
    }
    tenths_text_free(told);
    CHECK(tenths_plan_propagate(text, length, nowhere, sizeof nowhere - 1, NULL, &told) == TENTHS_PLAN_FAULTS && told == NULL);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "/varying/0/place") != NULL);
    CHECK(tenths_plan_propagate(text, length, NULL, 1, NULL, &told) == TENTHS_NULL_POINTER);
    CHECK(tenths_plan_propagate(text, length, variation, (size_t)-1, NULL, &told) == TENTHS_BAD_LENGTH);
    CHECK(tenths_plan_propagate(text, length, variation, sizeof variation - 1, NULL, NULL) == TENTHS_NULL_POINTER);
}

static void geared_head(void) {
    double steps[5] = {355.0, 45.0, 90.0, 180.0, 250.0}, step = 0.0;
    char message[200];
    CHECK(tenths_lower_spindle_step(TENTHS_INCH, 249.9, steps, 5, &step) == TENTHS_OK && step == 180.0);
    CHECK(tenths_lower_spindle_step(TENTHS_METRIC, 250.0, steps, 5, &step) == TENTHS_OK && step == 250.0);
    CHECK(tenths_lower_spindle_step(TENTHS_METRIC, 44.0, steps, 5, &step) == TENTHS_ARGUMENT && isnan(step));
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "at least 45 rev/min") != NULL);
    CHECK(tenths_lower_spindle_step(TENTHS_METRIC, NAN, steps, 5, &step) == TENTHS_ARGUMENT && isnan(step));
    CHECK(tenths_lower_spindle_step(TENTHS_METRIC, 44.0, NULL, 0, &step) == TENTHS_BAD_COUNT && isnan(step));
    CHECK(tenths_lower_spindle_step(TENTHS_METRIC, 44.0, NULL, 5, &step) == TENTHS_NULL_POINTER);
    CHECK(tenths_lower_spindle_step(TENTHS_METRIC, 44.0, steps, 5, NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_lower_spindle_step(7, 44.0, steps, 5, &step) == TENTHS_BAD_UNITS);
    steps[2] = -90.0;
    CHECK(tenths_lower_spindle_step(TENTHS_INCH, 249.9, steps, 5, &step) == TENTHS_ARGUMENT && isnan(step));
}

static void taylor(void) {
    /* By hand: V T^0.5 = 400. */
    double speeds[4] = {400.0, 200.0, 100.0, 50.0}, lives[4] = {1.0, 4.0, 16.0, 64.0};
    double feeds[4] = {0.1, 0.1, 0.2, 0.1};
    tenths_taylor_fit fit;
    memset(&fit, 0, sizeof fit);
    CHECK(tenths_fit_taylor(TENTHS_INCH, speeds, lives, 4, &fit) == TENTHS_BAD_STRUCT_SIZE);
    fit.struct_size = sizeof fit;
    CHECK(tenths_fit_taylor(TENTHS_INCH, speeds, lives, 4, &fit) == TENTHS_OK);
    CHECK(fit.trials == 4 && fabs(fit.taylor_n - 0.5) < 1e-12 && fabs(fit.taylor_c - 400.0) < 1e-9);
    CHECK(fit.taylor_n_error < 1e-12 && fit.r_squared > 1.0 - 1e-12 && !fit.has_feed_exponent && isnan(fit.feed_exponent));
    CHECK(fit.covariance_count == 4 && fit.covariance[1] == fit.covariance[2]);
    tenths_taylor_fit_clear(&fit);
    CHECK(tenths_fit_taylor_extended(TENTHS_INCH, speeds, lives, feeds, NULL, 4, &fit) == TENTHS_OK);
    CHECK(fit.has_feed_exponent && fabs(fit.feed_exponent) < 1e-12 && isnan(fit.depth_exponent) && fit.covariance_count == 9);
    tenths_taylor_fit_clear(&fit);
    CHECK(tenths_fit_taylor(TENTHS_INCH, speeds, lives, 2, &fit) == TENTHS_NO_FIT && isnan(fit.taylor_n));
    CHECK(tenths_fit_taylor(TENTHS_INCH, speeds, speeds, 4, &fit) == TENTHS_NO_FIT);
    CHECK(tenths_fit_taylor(7, speeds, lives, 4, &fit) == TENTHS_BAD_UNITS);
    CHECK(tenths_fit_taylor(TENTHS_INCH, NULL, lives, 4, &fit) == TENTHS_NULL_POINTER);
    CHECK(tenths_fit_taylor(TENTHS_INCH, speeds, lives, (size_t)-1, &fit) == TENTHS_BAD_LENGTH);
    CHECK(tenths_fit_taylor(TENTHS_INCH, speeds, lives, 4, NULL) == TENTHS_NULL_POINTER);
    lives[1] = -1.0;
    CHECK(tenths_fit_taylor(TENTHS_INCH, speeds, lives, 4, &fit) == TENTHS_ARGUMENT && fit.trials == 0);
}

static void machine(void) {
    /* By hand: 0.1 kW at the cut are 0.125 kW of the motor, of which the machine gives 0.1: 0.8 of the feed. */
    static const double wanted[14] = {10, 2, 1000, 0.1, 5, 3, 2000, 0, 90, 0, 0, 0.01, 1, 0.8};
    static const char mill[] = "{\"units\": \"metric\", \"least_spindle_speed\": 100, \"greatest_spindle_speed\": 8000,"
                               "\"curve\": [{\"spindle_speed\": 500, \"power\": 0.1}]}";
    static const char feeder[] = "{\"units\": \"metric\", \"least_spindle_speed\": 100, \"greatest_spindle_speed\": 8000,"
                                 "\"greatest_axis_force\": 100}";
    char message[256];
    double x[14];
    int32_t fits = -1;
    char *bounds = NULL;
    memcpy(x, wanted, sizeof x);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", x, 14, mill, strlen(mill), 0, x, &fits, &bounds) == TENTHS_OK);
    CHECK(fits == 1 && fabs(x[3] - 0.08) < 1e-12 && x[2] == 1000.0);
    CHECK(bounds != NULL && strstr(bounds, "motor_power: ") == bounds && strstr(bounds, "exceeded") == NULL);
    tenths_text_free(bounds);
    memcpy(x, wanted, sizeof x);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", x, 14, mill, strlen(mill), 0.09, x, &fits, &bounds) == TENTHS_OK);
    CHECK(fits == 0 && x[3] == 0.09 && bounds != NULL && strstr(bounds, "exceeded: motor_power: ") != NULL);
    tenths_text_free(bounds);
    x[3] = 0.05;
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", x, 14, mill, strlen(mill), 0, x, &fits, &bounds) == TENTHS_OK);
    CHECK(fits == 1 && x[3] == 0.05 && bounds != NULL && bounds[0] == 0);
    tenths_text_free(bounds);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", x, 14, feeder, strlen(feeder), 0, x, &fits, &bounds) == TENTHS_OK);
    CHECK(bounds != NULL && strcmp(bounds, "not checked: the greatest axis force of the machine, because the formula has no result to compare with it\n") == 0);
    tenths_text_free(bounds);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut_for_target", x, 0, mill, strlen(mill), 0, x, &fits, NULL) == TENTHS_NO_CUT);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "; use milling_cut") != NULL);
    x[2] = 50.0;
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", x, 14, mill, strlen(mill), 0, x, &fits, NULL) == TENTHS_NO_CUT);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "flat_depth", x, 2, mill, strlen(mill), 0, x, &fits, NULL) == TENTHS_NO_CUT);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", x, 13, mill, strlen(mill), 0, x, &fits, NULL) == TENTHS_BAD_COUNT);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", x, 14, "{}", 2, 0, x, &fits, NULL) == TENTHS_MACHINE_FAULTS);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", x, 14, mill, strlen(mill), -1, x, &fits, NULL) == TENTHS_ARGUMENT);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", NULL, 14, mill, strlen(mill), 0, x, &fits, NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", x, 14, NULL, 0, 0, x, &fits, NULL) == TENTHS_NULL_POINTER);
}

int main(void) {
    taylor();
    machine();
    limits();
    gauges();
    geared_head();
    plan();
    sheets();
    propagation();
    return finish();
}
