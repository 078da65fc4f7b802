/* The cheapest tolerances through the C header; the figures are those of tests/allocation.rs, with their sources there. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <string.h>

enum { MOST_PARTS = 7 };

static int near(double got, double expected, double relative) { return fabs(got - expected) <= relative * fabs(expected); }

static tenths_stack *stack_of(const double *halves, const double *sensitivities, size_t count) {
    tenths_stack *stack = NULL;
    tenths_contributor one;
    size_t k;
    CHECK(tenths_stack_new(TENTHS_METRIC, &stack) == TENTHS_OK);
    for (k = 0; k < count; k++) {
        one.struct_size = sizeof one;
        CHECK(tenths_contributor_init(&one) == TENTHS_OK);
        one.name = "part";
        one.nominal = 10.0;
        one.plus = halves[k];
        one.minus = -halves[k];
        if (sensitivities != NULL) one.sensitivity = sensitivities[k];
        CHECK(tenths_stack_add(stack, &one) == TENTHS_OK);
    }
    return stack;
}

static tenths_choice choice_of(size_t number, double scale, double exponent) {
    tenths_choice choice;
    choice.struct_size = sizeof choice;
    CHECK(tenths_choice_init(&choice) == TENTHS_OK);
    CHECK(choice.curve == TENTHS_RECIPROCAL && choice.fixed == 0.0 && isinf(choice.greatest) && isnan(choice.scale));
    choice.number = number;
    choice.fixed = 1.0;
    choice.scale = scale;
    choice.exponent = exponent;
    choice.least = 1e-4;
    return choice;
}

static int costs(const tenths_allocation *allocation, double expected, double relative) {
    double cost, saving;
    return tenths_allocation_cost(allocation, &cost, &saving) == TENTHS_OK && near(cost, expected, relative) && saving >= 0.0
           && tenths_allocation_cost(allocation, NULL, NULL) == TENTHS_OK;
}

static tenths_allocated_tolerance allotted(const tenths_allocation *allocation, size_t number) {
    tenths_allocated_tolerance one;
    one.struct_size = sizeof one;
    CHECK(tenths_allocation_tolerance(allocation, number, &one) == TENTHS_OK && strcmp(one.name, "part") == 0);
    tenths_allocated_tolerance_clear(&one);
    CHECK(one.name == NULL);
    return one;
}

/* scipy 1.17 (SLSQP) for the same problems. */
static void against_scipy(void) {
    static const double halves[] = {0.1, 0.1, 0.1, 0.1}, sensitivities[] = {1.0, 1.0, 2.0, 0.5};
    static const double scales[] = {2.0, 1.0, 4.0, 0.5}, exponents[] = {1.0, 0.5, 1.0, 2.0};
    static const struct {
        int32_t closure;
        double cost, bands[4];
    } expected[] = {
        {TENTHS_WORST_CASE, 83.73742664, {0.0934137, 0.0168206, 0.0934137, 0.2058767}},
        {TENTHS_RSS, 45.25930544, {0.1884903, 0.0775394, 0.1496048, 0.3401920}},
        {TENTHS_DEFECTS, 0.0, {0.1884918, 0.0775402, 0.1496060, 0.3401941}},
    };
    tenths_stack *stack = stack_of(halves, sensitivities, 4);
    tenths_choice choices[4];
    tenths_allocation *allocation = NULL;
    size_t k, j;
    /* In any order. */
    for (k = 0; k < 4; k++) choices[3 - k] = choice_of(k, scales[k], exponents[k]);
    for (k = 0; k < 3; k++) {
        double total = 0.0;
        CHECK(tenths_stack_allocate(stack, choices, 4, expected[k].closure, 0.4, 0.0027, &allocation) == TENTHS_OK);
        for (j = 0; j < 4; j++) {
            tenths_allocated_tolerance one = allotted(allocation, j);
            CHECK(near(one.half_band, expected[k].bands[j], 1e-5) && !one.is_least && !one.is_greatest && one.has_cost);
            total += one.cost;
        }
        CHECK(costs(allocation, expected[k].cost == 0.0 ? total : 4.0 + expected[k].cost, 1e-9));
        CHECK(costs(allocation, total, 1e-12));
        tenths_allocation_free(allocation);
    }
    for (k = 0; k < 4; k++) choices[k].least = 0.05;
    choices[3].greatest = 0.08;
    choices[1].least = 0.06;
    CHECK(tenths_stack_allocate(stack, choices, 4, TENTHS_WORST_CASE, 0.4, 0.0, &allocation) == TENTHS_OK);
    CHECK(costs(allocation, 4.0 + 88.99815776, 1e-9));
    CHECK(allotted(allocation, 0).is_greatest && allotted(allocation, 1).is_least && !allotted(allocation, 2).is_least);
    CHECK(!allotted(allocation, 1).is_greatest && !allotted(allocation, 0).is_least);
    tenths_allocation_free(allocation);
    tenths_stack_free(stack);
}

/* scipy for exponential curves; those with corners by hand. */
static void other_curves(void) {
    static const double halves[] = {0.1, 0.1, 0.1}, scales[] = {10.0, 5.0, 8.0}, rates[] = {20.0, 10.0, 15.0};
    static const double bands_of_one[] = {0.01, 0.03, 0.06}, costs_of_one[] = {20.0, 10.0, 7.0};
    static const double bands_of_other[] = {0.01, 0.05}, costs_of_other[] = {9.0, 5.0};
    static const double targets[] = {0.02, 0.03, 0.04, 0.07, 0.11}, expected[] = {29.0, 24.0, 19.0, 16.0, 12.0};
    tenths_stack *stack = stack_of(halves, NULL, 3), *two = stack_of(halves, NULL, 2);
    tenths_choice choices[3];
    tenths_allocation *allocation = NULL;
    static const double bands[] = {0.2471386, 0.3274953, 0.2857785};
    size_t k;
    for (k = 0; k < 3; k++) {
        choices[k] = choice_of(k, scales[k], rates[k]);
        choices[k].curve = TENTHS_EXPONENTIAL;
        choices[k].fixed = 0.0;
    }
    CHECK(tenths_stack_allocate(stack, choices, 3, TENTHS_RSS, 0.5, 0.0, &allocation) == TENTHS_OK);
    CHECK(costs(allocation, 0.37044548075, 1e-8));
    for (k = 0; k < 3; k++) CHECK(near(allotted(allocation, k).half_band, bands[k], 1e-5));
    tenths_allocation_free(allocation);

    for (k = 0; k < 2; k++) choices[k].curve = TENTHS_POINTS;
    choices[0].half_bands = bands_of_one, choices[0].costs = costs_of_one, choices[0].points = 3;
    choices[1].half_bands = bands_of_other, choices[1].costs = costs_of_other, choices[1].points = 2;
    for (k = 0; k < 5; k++) {
        CHECK(tenths_stack_allocate(two, choices, 2, TENTHS_WORST_CASE, targets[k], 0.0, &allocation) == TENTHS_OK);
        CHECK(costs(allocation, expected[k], 1e-12));
        tenths_allocation_free(allocation);
    }
    tenths_stack_free(stack);
    tenths_stack_free(two);
}

/* Applied, the target is kept, and a micrometre a piece is all that is lost; who was not chosen keeps the tolerance. */
static void applied(void) {
    static const double halves[] = {0.1, 0.05, 0.1}, sensitivities[] = {1.0, -1.0, 2.0};
    tenths_stack *stack = stack_of(halves, sensitivities, 3), *narrowed = NULL, *shorter = stack_of(halves, NULL, 2);
    tenths_choice choices[2];
    tenths_allocation *allocation = NULL;
    tenths_limits_out before, after;
    tenths_allocated_tolerance each[3], absent;
    size_t k;
    choices[0] = choice_of(0, 1.0, 0.8);
    choices[1] = choice_of(2, 3.0, 1.3);
    before.struct_size = after.struct_size = sizeof before;
    CHECK(tenths_stack_allocate(stack, choices, 2, TENTHS_WORST_CASE, 0.3, 0.0, &allocation) == TENTHS_OK);
    for (k = 0; k < 3; k++) each[k] = allotted(allocation, k);
    /* One that was not to be chosen has no cost. */
    CHECK(each[1].half_band == 0.05 && !each[1].has_cost && isnan(each[1].cost) && each[0].has_cost);
    CHECK(near(each[0].half_band + each[1].half_band + 2.0 * each[2].half_band, 0.3, 1e-9));
    CHECK(tenths_allocation_apply(allocation, stack, "1 \xc2\xb5m", &narrowed) == TENTHS_OK);
    CHECK(tenths_stack_worst_case(stack, &before) == TENTHS_OK && tenths_stack_worst_case(narrowed, &after) == TENTHS_OK);
    CHECK(after.upper - after.lower <= INT64_C(600000000) && after.upper - after.lower > INT64_C(593000000));
    CHECK(before.upper + before.lower == after.upper + after.lower);
    tenths_stack_free(narrowed);
    CHECK(tenths_allocation_apply(allocation, stack, "0 mm", &narrowed) != TENTHS_OK && narrowed == NULL);
    CHECK(tenths_allocation_apply(allocation, shorter, "1 mm", &narrowed) == TENTHS_BAD_FUNCTION);
    absent.struct_size = sizeof absent;
    CHECK(tenths_allocation_tolerance(allocation, 3, &absent) == TENTHS_UNKNOWN_NAME && isnan(absent.half_band));
    CHECK(absent.name == NULL && !absent.has_cost);
    tenths_allocation_free(allocation);
    tenths_stack_free(stack);
    tenths_stack_free(shorter);
}

/* K. W. Chase, ADCATS 99-6, from memory. */
static void scaled(void) {
    static const double halves[] = {0.0015, 0.0025, 0.0025, 0.008, 0.002, 0.006, 0.002};
    static const size_t fixed[] = {2, 0, 1};
    tenths_stack *stack = stack_of(halves, NULL, MOST_PARTS);
    double factor;
    CHECK(tenths_stack_proportional_factor(stack, fixed, 3, TENTHS_WORST_CASE, 0.015, &factor) == TENTHS_OK);
    CHECK(near(factor, 0.47222222, 1e-7));
    CHECK(tenths_stack_proportional_factor(stack, fixed, 3, TENTHS_RSS, 0.015, &factor) == TENTHS_OK);
    CHECK(near(factor, 1.39526315, 1e-8));
    /* All of 0.0245, by hand. */
    CHECK(tenths_stack_proportional_factor(stack, NULL, 0, TENTHS_WORST_CASE, 0.049, &factor) == TENTHS_OK);
    CHECK(near(factor, 2.0, 1e-12));
    CHECK(tenths_stack_proportional_factor(stack, fixed, 3, TENTHS_WORST_CASE, 0.0065, &factor) == TENTHS_BAD_FUNCTION);
    CHECK(isnan(factor));
    CHECK(tenths_stack_proportional_factor(stack, fixed, 3, TENTHS_DEFECTS, 0.015, &factor) == TENTHS_BAD_CHOICE);
    tenths_stack_free(stack);
}

static void refused(void) {
    static const double halves[] = {0.1, 0.05};
    tenths_stack *stack = stack_of(halves, NULL, 2);
    tenths_choice choices[2];
    tenths_allocation *allocation = NULL;
    char message[200];
    choices[0] = choices[1] = choice_of(0, 1.0, 1.0);
    choices[0].least = 0.02;
    CHECK(tenths_stack_allocate(stack, choices, 1, TENTHS_WORST_CASE, 0.06, 0.0, &allocation) == TENTHS_BAD_FUNCTION);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "the target of 0.06 cannot be kept") != NULL && strstr(message, "it is 0.07") != NULL);
    CHECK(tenths_stack_allocate(stack, choices, 2, TENTHS_WORST_CASE, 1.0, 0.0, &allocation) == TENTHS_AMBIGUOUS_NAME);
    choices[1].number = 2;
    CHECK(tenths_stack_allocate(stack, choices, 2, TENTHS_WORST_CASE, 1.0, 0.0, &allocation) == TENTHS_UNKNOWN_NAME);
    choices[0].curve = 3;
    CHECK(tenths_stack_allocate(stack, choices, 1, TENTHS_WORST_CASE, 1.0, 0.0, &allocation) == TENTHS_BAD_CHOICE);
    CHECK(tenths_stack_allocate(stack, choices, 1, 3, 1.0, 0.0, &allocation) != TENTHS_OK && allocation == NULL);
    choices[0].curve = TENTHS_POINTS;
    CHECK(tenths_stack_allocate(stack, choices, 1, TENTHS_RSS, 1.0, 0.0, &allocation) == TENTHS_NULL_POINTER);
    choices[0] = choice_of(0, 1.0, 1.0);
    CHECK(tenths_stack_allocate(stack, choices, 1, TENTHS_DEFECTS, 1.0, 0.0, &allocation) == TENTHS_BAD_FUNCTION);
    CHECK(tenths_stack_allocate(stack, choices, 1, TENTHS_RSS, 1.0, -0.1, &allocation) == TENTHS_BAD_SAMPLING);
    tenths_allocation_free(NULL);
    tenths_stack_free(stack);
}

int main(void) {
    against_scipy();
    other_curves();
    applied();
    scaled();
    refused();
    return finish();
}
