/* Passes with one cutter on a small mill: power and torque of all in one call, and each fitted to the machine. C99.
 *
 * The figures of tool, metal and machine are invented: put your own in their place. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "tenths.h"

enum { PASSES = 4, ARGUMENTS = 14, OUTPUTS = 16 };

/* The numbers that change from pass to pass, and the results. */
struct pass {
    double spindle_speed; /* rev/min */
    double chip_load;     /* mm */
    double radial_width;  /* mm */
    double axial_depth;   /* mm */
    double torque;        /* N·m */
    double motor_power;   /* kW */
};

/* The same for all passes: the cutter, and a metal whose specific cutting force does not change with the chip. */
static const double diameter = 10.0, teeth = 2.0, kc11 = 2000.0, mc = 0.0;

static const char mill[] = "{\"units\": \"metric\", \"name\": \"small mill\","
                           " \"least_spindle_speed\": 100, \"greatest_spindle_speed\": 3000,"
                           " \"curve\": [{\"spindle_speed\": 500, \"power\": 0.2}]}";

/* The chip load below which this tool rubs, in mm. */
static const double least_chip_load = 0.03;

static int fail(void) {
    char message[400];
    tenths_error_message(message, sizeof message);
    fprintf(stderr, "%s\n", message);
    return EXIT_FAILURE;
}

/* Sets the column of a result by its name. */
static tenths_status set_result(tenths_result_column *results, const char *name, double *first) {
    tenths_formula_info info = {.struct_size = sizeof info};
    tenths_status status = tenths_formula_describe("milling_cut", &info);
    size_t k;
    for (k = 0; status == TENTHS_OK && k < info.outputs; k++) {
        tenths_output_info output = {.struct_size = sizeof output};
        status = tenths_formula_output("milling_cut", k, TENTHS_METRIC, &output);
        if (status == TENTHS_OK && strcmp(output.name, name) == 0)
            results[k] = (tenths_result_column){first, sizeof(struct pass)};
    }
    return status;
}

/* Torque and power of all passes; `statuses` says which of them have none. */
static tenths_status work_out(struct pass *passes, tenths_status *statuses) {
    const size_t step = sizeof *passes;
    const tenths_column arguments[ARGUMENTS] = {
        {&diameter, 0},
        {&teeth, 0},
        {&passes->spindle_speed, step},
        {&passes->chip_load, step},
        {&passes->radial_width, step},
        {&passes->axial_depth, step},
        {&kc11, 0},
        {&mc, 0}, /* the others have a default: a null column takes it */
    };
    tenths_result_column results[OUTPUTS] = {{NULL, 0}};
    tenths_formula_info info = {.struct_size = sizeof info};
    tenths_status status = tenths_formula_describe("milling_cut", &info);
    if (status == TENTHS_OK) status = set_result(results, "torque", &passes->torque);
    if (status == TENTHS_OK) status = set_result(results, "motor_power", &passes->motor_power);
    if (status != TENTHS_OK) return status;
    return tenths_formula_batch("milling_cut", TENTHS_METRIC, PASSES, arguments, ARGUMENTS, results, info.outputs,
                                statuses, NULL, NULL, NULL);
}

/* Fits a pass to the mill, and prints what bound it. */
static tenths_status fit(const struct pass *pass) {
    double cut[ARGUMENTS];
    int32_t fits;
    char *bounds;
    size_t k;
    tenths_status status;
    for (k = 0; k < ARGUMENTS; k++) { /* the defaults first */
        tenths_argument_info argument = {.struct_size = sizeof argument};
        status = tenths_formula_argument("milling_cut", k, TENTHS_METRIC, &argument);
        if (status != TENTHS_OK) return status;
        cut[k] = argument.default_value;
    }
    cut[0] = diameter, cut[1] = teeth, cut[2] = pass->spindle_speed, cut[3] = pass->chip_load;
    cut[4] = pass->radial_width, cut[5] = pass->axial_depth, cut[6] = kc11, cut[7] = mc;
    status = tenths_limit_to_machine(TENTHS_METRIC, "milling_cut", cut, ARGUMENTS, mill, strlen(mill), least_chip_load,
                                     cut, &fits, &bounds);
    if (status != TENTHS_OK) return status;
    printf("  %s: %.0f rev/min, chip load %.4f mm\n", fits ? "fits" : "does not fit", cut[2], cut[3]);
    if (bounds[0] != '\0') printf("  %s", bounds);
    tenths_text_free(bounds);
    return TENTHS_OK;
}

int main(void) {
    struct pass passes[PASSES] = {
        {1000.0, 0.1, 5.0, 3.0, NAN, NAN},
        {1000.0, 0.1, 10.0, 3.0, NAN, NAN},
        {4000.0, 0.05, 2.0, 2.0, NAN, NAN},
        {1000.0, 0.1, 12.0, 3.0, NAN, NAN},
    };
    tenths_status statuses[PASSES];
    size_t k;
    if (work_out(passes, statuses) != TENTHS_OK) return fail();
    for (k = 0; k < PASSES; k++) {
        const struct pass *pass = &passes[k];
        printf("pass %d: %.0f mm wide, %.0f mm deep: ", (int)k + 1, pass->radial_width, pass->axial_depth);
        if (statuses[k] != TENTHS_OK) { /* the other passes have their answers all the same */
            puts(tenths_status_text(statuses[k]));
            continue;
        }
        printf("%.3f N·m, %.3f kW\n", pass->torque, pass->motor_power);
        if (fit(pass) != TENTHS_OK) return fail();
    }
    return EXIT_SUCCESS;
}
