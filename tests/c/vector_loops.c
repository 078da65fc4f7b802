/* Vector loops through the C header: a clutch and a slider crank against their closed forms. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;

static int near(double got, double expected, double relative) { return fabs(got - expected) <= relative * fabs(expected); }

static tenths_input input(const char *name, double nominal, double half) {
    tenths_input made;
    made.struct_size = sizeof made;
    CHECK(tenths_input_init(&made) == TENTHS_OK);
    made.name = name;
    made.nominal = nominal;
    made.plus = half;
    made.minus = -half;
    return made;
}

/* A roller clutch: hub a, roller c, ring e. The contact angle of 7.0184 degrees is published (K. W. Chase's example, from
 * memory); cos phi = (a + c) / (e - c). */
static void clutch(void) {
    static const char *const links[][2] = {{"a", "90"}, {"c", "90"}, {"b", "0"}, {"e", "270 - phi"}, {"c", "90 - phi"}};
    tenths_vector_loop *around = NULL;
    tenths_propagation *propagation = NULL;
    tenths_sampling sampling;
    tenths_sample *sample = NULL, *again = NULL;
    tenths_summary summary, same;
    tenths_extremes extremes;
    tenths_moments moments;
    tenths_input inputs[3];
    double values[3], phi, b, lower, upper;
    size_t k;
    CHECK(tenths_vector_loop_new("phi", 5.0, "b", 4.0, &around) == TENTHS_OK);
    for (k = 0; k < 5; k++) CHECK(tenths_vector_loop_link(around, links[k][0], links[k][1]) == TENTHS_OK);
    CHECK(tenths_vector_loop_inputs(around) == 3 && tenths_vector_loop_inputs(NULL) == 0);
    /* In any order: the loop has a, c, e. */
    inputs[0] = input("e", 50.8, 0.0125);
    inputs[1] = input("a", 27.645, 0.0125);
    inputs[2] = input("c", 11.43, 0.01);
    CHECK(tenths_vector_loop_propagate(around, "b", inputs, 3, &propagation) == TENTHS_OK);
    CHECK(tenths_propagation_nominal(propagation, &b) == TENTHS_OK);
    tenths_propagation_free(propagation);
    CHECK(tenths_vector_loop_propagate(around, "phi", inputs, 3, &propagation) == TENTHS_OK);
    values[0] = 27.645, values[1] = 11.43, values[2] = 50.8;
    /* The results may overwrite the values. */
    CHECK(tenths_vector_loop_solve(around, values, 3, &values[0], &values[1]) == TENTHS_OK);
    CHECK(tenths_vector_loop_solve(around, values, 2, &values[2], NULL) == TENTHS_BAD_FUNCTION && isnan(values[2]));
    /* The propagation does not need the loop any more. */
    tenths_vector_loop_free(around);
    CHECK(tenths_propagation_nominal(propagation, &phi) == TENTHS_OK && phi == values[0] && b == values[1]);
    CHECK(fabs(phi - 7.0184) < 5e-5 && near(phi, acos((27.645 + 11.43) / (50.8 - 11.43)) * 180.0 / PI, 1e-11));
    CHECK(near(b, sqrt(39.37 * 39.37 - 39.075 * 39.075), 1e-11));
    extremes.struct_size = sizeof extremes;
    moments.struct_size = sizeof moments;
    CHECK(tenths_propagation_inputs(propagation) == 3);
    CHECK(tenths_propagation_extremes(propagation, &extremes) == TENTHS_OK && extremes.at_lower_count == 3);
    lower = acos((27.6575 + 11.44) / (50.7875 - 11.44)) * 180.0 / PI;
    upper = acos((27.6325 + 11.42) / (50.8125 - 11.42)) * 180.0 / PI;
    CHECK(near(extremes.lower, lower, 1e-10) && near(extremes.upper, upper, 1e-10));
    CHECK(extremes.at_lower[0] == 27.645 + 0.0125 && extremes.at_lower[1] == 11.43 + 0.01 && extremes.at_lower[2] == 50.8 - 0.0125);
    tenths_extremes_clear(&extremes);
    CHECK(tenths_propagation_moments(propagation, &moments) == TENTHS_OK);
    tenths_moments_clear(&moments);
    /* The same bits for any count of threads. */
    sampling.struct_size = sizeof sampling;
    memset(&summary, 0, sizeof summary);
    memset(&same, 0, sizeof same);
    summary.struct_size = same.struct_size = sizeof summary;
    CHECK(tenths_sampling_init(40000, 3, &sampling) == TENTHS_OK);
    CHECK(tenths_propagation_sample(propagation, &sampling, &sample) == TENTHS_OK);
    sampling.threads = 2;
    CHECK(tenths_propagation_sample(propagation, &sampling, &again) == TENTHS_OK);
    CHECK(tenths_sample_summary(sample, &summary) == TENTHS_OK && tenths_sample_summary(again, &same) == TENTHS_OK);
    CHECK(memcmp(&summary, &same, sizeof summary) == 0 && summary.undefined == 0);
    CHECK(fabs(summary.sigma - moments.sigma) < 5.0 * summary.sigma_error);
    tenths_sample_free(sample);
    tenths_sample_free(again);
    tenths_propagation_free(propagation);
}

/* x = r cos theta + sqrt(l^2 - r^2 sin^2 theta); the rod falls by asin(r / l sin theta). */
static void slider_crank(void) {
    tenths_vector_loop *around = NULL;
    tenths_propagation *propagation = NULL;
    double theta, row[3], x, rod;
    char message[300];
    CHECK(tenths_vector_loop_new("x", 100.0, "rod", 350.0, &around) == TENTHS_OK);
    CHECK(tenths_vector_loop_link(around, "r", "theta") == TENTHS_OK);
    CHECK(tenths_vector_loop_link(around, "l", "rod") == TENTHS_OK);
    CHECK(tenths_vector_loop_link(around, "x", "180.0") == TENTHS_OK);
    for (theta = 5.0; theta < 180.0; theta += 25.0) {
        double height = 30.0 * sin(theta * PI / 180.0);
        row[0] = 30.0, row[1] = theta, row[2] = 90.0;
        CHECK(tenths_vector_loop_solve(around, row, 3, &x, &rod) == TENTHS_OK);
        CHECK(near(x, 30.0 * cos(theta * PI / 180.0) + sqrt(8100.0 - height * height), 1e-12));
        CHECK(near(rod, 360.0 - asin(height / 90.0) * 180.0 / PI, 1e-12));
    }
    /* A rod shorter than the crank cannot reach. */
    row[1] = 90.0, row[2] = 20.0;
    CHECK(tenths_vector_loop_solve(around, row, 3, &x, &rod) == TENTHS_UNDEFINED && isnan(x) && isnan(rod));
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "at r = 30, theta = 90, l = 20: the loop does not close") != NULL);
    CHECK(tenths_vector_loop_propagate(around, "y", NULL, 0, &propagation) == TENTHS_UNKNOWN_NAME);
    CHECK(tenths_vector_loop_propagate(around, "x", NULL, 0, &propagation) == TENTHS_BAD_FUNCTION && propagation == NULL);
    CHECK(tenths_vector_loop_link(around, "1e-3", "90") == TENTHS_BAD_FUNCTION);
    tenths_vector_loop_free(around);
    CHECK(tenths_vector_loop_new("x", 1.0, "x", 2.0, &around) == TENTHS_BAD_FUNCTION && around == NULL);
    CHECK(tenths_vector_loop_new("x", 1.0, "2 y", 2.0, &around) == TENTHS_BAD_FUNCTION);
    /* A triangle of numbers alone: 3, 4, 5. */
    CHECK(tenths_vector_loop_new("x", 1.0, "y", 1.0, &around) == TENTHS_OK);
    CHECK(tenths_vector_loop_solve(around, NULL, 0, &x, NULL) == TENTHS_BAD_FUNCTION);
    CHECK(tenths_vector_loop_link(around, "x", "0") == TENTHS_OK && tenths_vector_loop_link(around, "3", "90") == TENTHS_OK);
    CHECK(tenths_vector_loop_link(around, "5", "180 + y") == TENTHS_OK);
    CHECK(tenths_vector_loop_solve(around, NULL, 0, &x, &rod) == TENTHS_OK);
    CHECK(near(x, 4.0, 1e-12) && near(rod, asin(0.6) * 180.0 / PI, 1e-12));
    tenths_vector_loop_free(around);
    tenths_vector_loop_free(NULL);
}

int main(void) {
    clutch();
    slider_crank();
    return finish();
}
