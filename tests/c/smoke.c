/* The promises of the header, one by one. Also compiled as C++11, by smoke.cpp. */
#include "tenths.h"
#include "check.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static int is_nan(double x) { return x != x; }
static int is_near(double x, double y, double within) { return fabs(x - y) <= within; }

static tenths_press_fit_input joint(void) {
    tenths_press_fit_input in;
    in.struct_size = sizeof in;
    CHECK(tenths_press_fit_init(TENTHS_INCH, &in) == TENTHS_OK);
    in.interference = 0.002;
    in.diameter = 1.0;
    in.hub_outer_diameter = 2.0;
    in.length = 1.0;
    in.hub_modulus = in.shaft_modulus = 30.0;
    in.hub_poisson = in.shaft_poisson = 0.292;
    in.friction = 0.15;
    return in;
}

static void versions(void) {
    CHECK(tenths_abi_version() == TENTHS_ABI_VERSION);
    CHECK(strchr(tenths_version(), '.') != NULL);
    CHECK(TENTHS_OK == 0 && TENTHS_INCH == 0 && TENTHS_METRIC == 1);
    CHECK(strcmp(tenths_status_text(TENTHS_OK), "success") == 0);
    CHECK(strcmp(tenths_status_text(12345), "unknown status") == 0);
    CHECK(tenths_formula_count() > 0);
    CHECK(tenths_formula_name(tenths_formula_count()) == NULL);
    CHECK(tenths_formula_name((size_t)-1) == NULL);
}

static void plain_call(void) {
    double speed = 1.0;
    /* 125 mm at 350 rev/min: 137.4 m/min, a printed problem of a tool maker (see tests/published). */
    CHECK(tenths_surface_speed(TENTHS_METRIC, 125.0, 350.0, &speed) == TENTHS_OK);
    CHECK(is_near(speed, 137.4, 0.05));
    CHECK(tenths_surface_speed(TENTHS_METRIC, -125.0, 350.0, &speed) == TENTHS_ARGUMENT);
    CHECK(is_nan(speed));
    speed = 1.0;
    CHECK(tenths_surface_speed(2, 125.0, 350.0, &speed) == TENTHS_BAD_UNITS);
    CHECK(is_nan(speed));
    CHECK(tenths_surface_speed(-1, 125.0, 350.0, &speed) == TENTHS_BAD_UNITS);
    CHECK(tenths_surface_speed(TENTHS_INCH, 125.0, 350.0, NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_surface_speed(TENTHS_INCH, NAN, 350.0, &speed) == TENTHS_ARGUMENT);
    CHECK(tenths_surface_speed(TENTHS_INCH, 1e308, 1e308, &speed) == TENTHS_NO_ANSWER);
    CHECK(is_nan(speed));
}

static void messages(void) {
    const char *expected = "surface_speed: diameter must be greater than 0 in, not -1 in";
    char whole[200], cut[12], guard[2] = {'x', 'y'};
    double speed;
    size_t length;
    CHECK(tenths_surface_speed(TENTHS_INCH, -1.0, 1.0, &speed) == TENTHS_ARGUMENT);
    length = tenths_error_message(NULL, 0);
    CHECK(length == strlen(expected));
    CHECK(tenths_error_message(whole, sizeof whole) == length && strcmp(whole, expected) == 0);
    CHECK(tenths_error_message(cut, sizeof cut) == length && strcmp(cut, "surface_spe") == 0);
    CHECK(tenths_error_message(guard, 1) == length && guard[0] == '\0' && guard[1] == 'y');
    CHECK(tenths_error_message(guard, 0) == length && guard[1] == 'y');
    /* A success leaves the message as it was. */
    CHECK(tenths_surface_speed(TENTHS_INCH, 1.0, 1.0, &speed) == TENTHS_OK);
    CHECK(tenths_error_message(NULL, 0) == length);
}

/* A message is cut between characters: the degree sign takes two bytes. */
static void message_cut(void) {
    tenths_knurl_growth_input in;
    char whole[200], cut[200];
    const char *sign;
    double growth;
    size_t at;
    in.struct_size = sizeof in;
    CHECK(tenths_knurl_growth_init(TENTHS_METRIC, &in) == TENTHS_OK);
    in.pitch = 1.0;
    in.profile_angle = 200.0;
    CHECK(tenths_knurl_growth(TENTHS_METRIC, &in, &growth, NULL) == TENTHS_ARGUMENT);
    tenths_error_message(whole, sizeof whole);
    sign = strstr(whole, "\xc2\xb0");
    CHECK(sign != NULL);
    if (sign == NULL) return;
    at = (size_t)(sign - whole);
    tenths_error_message(cut, at + 2); /* room for the first byte of the sign, and the NUL */
    CHECK(strlen(cut) == at);
    tenths_error_message(cut, at + 3);
    CHECK(strlen(cut) == at + 2);
}

static void defaults(void) {
    tenths_press_fit_input in;
    tenths_screw_preload_input screw;
    in.struct_size = sizeof in;
    CHECK(tenths_press_fit_init(TENTHS_METRIC, &in) == TENTHS_OK);
    CHECK(in.struct_size == sizeof in && in.shaft_bore == 0.0);
    CHECK(is_nan(in.interference) && is_nan(in.friction));
    screw.struct_size = sizeof screw;
    CHECK(tenths_screw_preload_init(TENTHS_METRIC, &screw) == TENTHS_OK);
    CHECK(screw.nut_factor == 0.2);
    CHECK(tenths_press_fit_init(TENTHS_METRIC, NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_press_fit_init(7, &in) == TENTHS_BAD_UNITS);
    in.struct_size = sizeof in - sizeof(double);
    CHECK(tenths_press_fit_init(TENTHS_METRIC, &in) == TENTHS_BAD_STRUCT_SIZE);
}

static void several_results(void) {
    tenths_press_fit_input in = joint();
    tenths_press_fit_output out;
    uint32_t advice = 99;
    out.struct_size = sizeof out;
    /* Solutions manual to Shigley, 8th ed., problem 3-68: 22 500 psi and 37 500 psi (see tests/published). */
    CHECK(tenths_press_fit(TENTHS_INCH, &in, &out, &advice) == TENTHS_OK);
    CHECK(is_near(out.pressure, 22500.0, 0.5) && is_near(out.hub_hoop_stress, 37500.0, 0.5));
    CHECK(advice == 0 && out.struct_size == sizeof out);

    in.hub_modulus = 0.01; /* under 1 GPa, 0.145 million psi: an answer, with advice on the fifth argument */
    CHECK(tenths_press_fit(TENTHS_INCH, &in, &out, &advice) == TENTHS_OK && advice == 1u << 4);
    CHECK(tenths_press_fit(TENTHS_INCH, &in, &out, NULL) == TENTHS_OK);

    in.hub_outer_diameter = 0.5;
    CHECK(tenths_press_fit(TENTHS_INCH, &in, &out, &advice) == TENTHS_RULE);
    CHECK(is_nan(out.pressure) && is_nan(out.torque) && advice == 0 && out.struct_size == sizeof out);

    in = joint();
    in.friction = NAN; /* as init left it */
    CHECK(tenths_press_fit(TENTHS_INCH, &in, &out, NULL) == TENTHS_ARGUMENT);
    CHECK(tenths_press_fit(TENTHS_INCH, NULL, &out, NULL) == TENTHS_NULL_POINTER && is_nan(out.pressure));
    CHECK(tenths_press_fit(TENTHS_INCH, &in, NULL, NULL) == TENTHS_NULL_POINTER);
}

/* A caller compiled against a later header has longer structs, whose further bytes are left alone. */
static void struct_sizes(void) {
    struct { tenths_press_fit_input known; double later; } in;
    struct { tenths_press_fit_output known; double later; } out;
    in.known = joint();
    in.later = out.later = 7.0;
    in.known.struct_size = sizeof in;
    out.known.struct_size = sizeof out;
    CHECK(tenths_press_fit(TENTHS_INCH, &in.known, &out.known, NULL) == TENTHS_OK);
    CHECK(is_near(out.known.pressure, 22500.0, 0.5) && out.later == 7.0);
    CHECK(tenths_press_fit_init(TENTHS_INCH, &in.known) == TENTHS_OK && in.later == 7.0);

    in.known = joint();
    out.known.pressure = 5.0;
    out.known.struct_size = sizeof out.known - 1;
    CHECK(tenths_press_fit(TENTHS_INCH, &in.known, &out.known, NULL) == TENTHS_BAD_STRUCT_SIZE);
    CHECK(out.known.pressure == 5.0); /* nothing is written to a struct of unknown extent */
    out.known.struct_size = sizeof out.known;
    in.known.struct_size = 0;
    CHECK(tenths_press_fit(TENTHS_INCH, &in.known, &out.known, NULL) == TENTHS_BAD_STRUCT_SIZE);
    CHECK(is_nan(out.known.pressure));
    in.known.struct_size = (size_t)-1;
    CHECK(tenths_press_fit(TENTHS_INCH, &in.known, &out.known, NULL) == TENTHS_OK);
}

/* A result may overwrite an argument: arguments are read first. */
static void overlap(void) {
    tenths_screw_preload_input in;
    double apart;
    in.struct_size = sizeof in;
    CHECK(tenths_screw_preload_init(TENTHS_METRIC, &in) == TENTHS_OK);
    in.torque = 10.0;
    in.screw_diameter = 8.0;
    CHECK(tenths_screw_preload(TENTHS_METRIC, &in, &apart, NULL) == TENTHS_OK);
    CHECK(tenths_screw_preload(TENTHS_METRIC, &in, &in.torque, NULL) == TENTHS_OK);
    CHECK(in.torque == apart);
}

static void by_name(void) {
    const double turning[2] = {20.0, 500.0};
    /* a hub of 0.5 GPa */
    const double pressed[10] = {0.02, 20.0, 40.0, 20.0, 0.5, 0.3, 210.0, 0.3, 0.1, 0.0};
    uint32_t advice = 99;
    char *remarks = NULL;
    CHECK(tenths_formula_check("surface_speed", TENTHS_METRIC, turning, 2, &advice) == TENTHS_OK && advice == 0);
    CHECK(tenths_formula_check("surface_speed", TENTHS_METRIC, turning, 1, NULL) == TENTHS_BAD_COUNT);
    CHECK(tenths_formula_check("surface_speed", TENTHS_METRIC, turning, (size_t)-1, NULL) == TENTHS_BAD_COUNT);
    CHECK(tenths_formula_check("no such", TENTHS_METRIC, turning, 2, NULL) == TENTHS_UNKNOWN_FORMULA);
    CHECK(tenths_formula_check("\xff\xfe", TENTHS_METRIC, turning, 2, NULL) == TENTHS_BAD_TEXT);
    CHECK(tenths_formula_check(NULL, TENTHS_METRIC, turning, 2, NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_formula_check("surface_speed", TENTHS_METRIC, NULL, 2, NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_formula_check("surface_speed", 9, turning, 2, NULL) == TENTHS_BAD_UNITS);
    CHECK(tenths_formula_check("press_fit", TENTHS_METRIC, pressed, 10, &advice) == TENTHS_OK);
    CHECK(advice == 1u << 4);
    CHECK(tenths_formula_remarks("press_fit", TENTHS_METRIC, pressed, 10, &remarks) == TENTHS_OK);
    CHECK(remarks != NULL && strstr(remarks, "hub_modulus is 0.5 GPa") != NULL);
    tenths_text_free(remarks);
    CHECK(tenths_formula_remarks("no such", TENTHS_METRIC, pressed, 10, &remarks) == TENTHS_UNKNOWN_FORMULA);
    CHECK(remarks == NULL);
    tenths_text_free(NULL);
}

int main(void) {
    versions();
    plain_call();
    messages();
    message_cut();
    defaults();
    several_results();
    struct_sizes();
    overlap();
    by_name();
    return finish();
}
