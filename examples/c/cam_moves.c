/* The feed of a cutter's centre for each move along a contour, and the chip load without that correction.
 *
 * If the path of the cutter's centre is programmed, the control feeds the centre. Along an arc the cutting edge then
 * feeds faster on the inside and slower on the outside, and the chip load with it. C99. */
#include <stdio.h>
#include <stdlib.h>
#include "tenths.h"

enum kind { LINE, INSIDE_ARC, OUTSIDE_ARC };

struct move {
    enum kind kind;
    double radius; /* of the finished arc, in mm; not used for a line */
};

struct tool {
    double diameter; /* mm */
    double teeth;
    double chip_load;     /* mm */
    double spindle_speed; /* rev/min */
};

static const char *const kind_names[] = {"line", "inside arc", "outside arc"};

static void print_failure(FILE *file, tenths_status status) {
    char message[400];
    tenths_error_message(message, sizeof message);
    fprintf(file, "%s: %s\n", tenths_status_text(status), message);
}

/* The feed rate of the centre at which the cutting edge feeds along the contour at `feed_rate`. */
static tenths_status centre_feed_rate(const struct move *move, const struct tool *tool, double feed_rate,
                                      double *result) {
    switch (move->kind) {
    case INSIDE_ARC:
        return tenths_inside_arc_feed_rate(TENTHS_METRIC, feed_rate, move->radius, tool->diameter, result);
    case OUTSIDE_ARC:
        return tenths_outside_arc_feed_rate(TENTHS_METRIC, feed_rate, move->radius, tool->diameter, result);
    default:
        *result = feed_rate;
        return TENTHS_OK;
    }
}

/* One line of the table: the feed to program, and the chip load if it were left at `feed_rate`. */
static tenths_status print_move(const struct move *move, const struct tool *tool, double feed_rate) {
    double centre, edge, chip_load;
    tenths_status status = centre_feed_rate(move, tool, feed_rate, &centre);
    if (status != TENTHS_OK) return status;
    /* The edge keeps the same proportion to the centre at any feed. */
    edge = feed_rate * (feed_rate / centre);
    status = tenths_chip_load(TENTHS_METRIC, edge, tool->teeth, tool->spindle_speed, &chip_load);
    if (status != TENTHS_OK) return status;
    printf("%-11s %6.1f %9.1f %13.4f\n", kind_names[move->kind], move->radius, centre, chip_load);
    return TENTHS_OK;
}

int main(void) {
    static const struct tool tool = {12.0, 4.0, 0.05, 2500.0};
    static const struct move moves[] = {
        {LINE, 0.0}, {INSIDE_ARC, 25.0}, {OUTSIDE_ARC, 25.0}, {INSIDE_ARC, 8.0}, {OUTSIDE_ARC, 4.0}, {INSIDE_ARC, 5.0},
    };
    double feed_rate;
    size_t k;
    tenths_status status =
        tenths_feed_rate(TENTHS_METRIC, tool.chip_load, tool.teeth, tool.spindle_speed, &feed_rate);
    if (status != TENTHS_OK) {
        print_failure(stderr, status);
        return EXIT_FAILURE;
    }
    printf("chip load %.4f mm at %.1f mm/min along the contour\n", tool.chip_load, feed_rate);
    printf("%-11s %6s %9s %13s\n", "move", "radius", "centre at", "uncorrected");
    for (k = 0; k < sizeof moves / sizeof *moves; k++) {
        status = print_move(&moves[k], &tool, feed_rate);
        if (status == TENTHS_RULE) { /* this cutter does not fit the arc, and the others may yet be good */
            printf("%-11s %6.1f ", kind_names[moves[k].kind], moves[k].radius);
            print_failure(stdout, status);
        } else if (status != TENTHS_OK) {
            print_failure(stderr, status);
            return EXIT_FAILURE;
        }
    }
    return EXIT_SUCCESS;
}
