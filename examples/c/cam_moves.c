/* Feeds for the moves of a contour: what the centre of the cutter must do on lines and arcs, in one call; and what the
 * chip, the power and the machine allow. C99.
 *
 * A control that is given the path of the cutter's centre feeds the centre. Along an arc the cutting edge then feeds
 * faster on the inside and slower on the outside, and the chip load with it. The figures of tool and machine are
 * invented: put your own in their place. */
#include <stdio.h>
#include <stdlib.h>
#include "tenths.h"

enum { MOVES = 6 };

/* A move as the drawing has it, and the feed of the centre that keeps the edge at its feed. */
struct move {
    double length;       /* of the finished contour, in mm */
    double curvature;    /* of the finished contour, in 1/mm: 0 a line, positive inside an arc, negative outside */
    double radial_width; /* mm */
    double axial_depth;  /* mm */
    double centre_feed;  /* mm/min */
};

static const double diameter = 12.0, chip_load = 0.05, teeth = 4.0, spindle_speed = 2500.0;

static const char *const bounds_in_words[] = {"chip", "force", "deflection", "power", "feed rate", "curve", "acceleration"};

static int fail(void) {
    char message[400];
    tenths_error_message(message, sizeof message);
    fprintf(stderr, "%s\n", message);
    return EXIT_FAILURE;
}

/* All moves in one call: the columns are the members of the structs. */
static tenths_status feed_centre(struct move *moves, double feed_rate, tenths_status *statuses, size_t *refused) {
    const tenths_column arguments[] = {{&feed_rate, 0}, {&moves->curvature, sizeof *moves}, {&diameter, 0}};
    const tenths_result_column result = {&moves->centre_feed, sizeof *moves};
    return tenths_formula_batch("arc_feed_rate", TENTHS_METRIC, MOVES, arguments, 3, &result, 1, statuses, NULL, refused,
                                NULL);
}

/* The cut in this material, on a machine of 0.4 kW at the cutter that gains 1 m/s in a second. */
static tenths_status cut_in(const char *material, tenths_path_cut *cut) {
    tenths_material found = {.struct_size = sizeof found};
    tenths_status status = tenths_material_find(TENTHS_METRIC, material, NULL, &found);
    if (status != TENTHS_OK) return status;
    cut->struct_size = sizeof *cut;
    status = tenths_path_cut_init(diameter, (uint32_t)teeth, spindle_speed, chip_load, found.kc11, found.mc, cut);
    cut->greatest_power = 0.4;
    cut->greatest_feed_rate = 2000.0;
    cut->acceleration = 1.0;
    return status;
}

/* The moves that the cutter can make, one after another, with what bounds each. */
static tenths_status print_path(const struct move *moves, const tenths_status *statuses) {
    double lengths[MOVES], curvatures[MOVES], widths[MOVES], depths[MOVES], feeds[MOVES], times[MOVES], total;
    tenths_feed_bound bounds[MOVES];
    tenths_path_cut cut;
    size_t k, kept = 0;
    tenths_status status = cut_in("C45", &cut);
    if (status != TENTHS_OK) return status;
    for (k = 0; k < MOVES; k++) {
        /* The centre's path is shorter than the contour inside an arc, and longer outside. */
        double share = 1.0 - moves[k].curvature * diameter / 2.0;
        if (statuses[k] != TENTHS_OK) continue;
        lengths[kept] = moves[k].length * share;
        curvatures[kept] = moves[k].curvature / share;
        widths[kept] = moves[k].radial_width;
        depths[kept++] = moves[k].axial_depth;
    }
    status = tenths_path_feeds(TENTHS_METRIC, &cut, lengths, curvatures, widths, depths, kept, feeds, NULL, bounds, times,
                               &total, NULL);
    if (status != TENTHS_OK) return status;
    puts("centre's path  feed mm/min  bound by      s");
    for (k = 0; k < kept; k++)
        printf("%8.2f mm %14.1f  %-12s %5.2f\n", lengths[k], feeds[k], bounds_in_words[bounds[k]], 60.0 * times[k]);
    printf("%.1f s in all\n", 60.0 * total);
    return TENTHS_OK;
}

int main(void) {
    struct move moves[MOVES] = {
        {40.0, 0.0, 2.0, 5.0, 0.0},  {20.0, 0.04, 2.0, 5.0, 0.0},   {20.0, -0.04, 2.0, 5.0, 0.0},
        {6.0, 0.125, 2.0, 5.0, 0.0}, {3.0, -0.25, 11.0, 12.0, 0.0}, {5.0, 0.2, 2.0, 5.0, 0.0},
    };
    tenths_status statuses[MOVES];
    double feed_rate;
    size_t k, refused;
    if (tenths_feed_rate(TENTHS_METRIC, chip_load, teeth, spindle_speed, &feed_rate) != TENTHS_OK) return fail();
    if (feed_centre(moves, feed_rate, statuses, &refused) != TENTHS_OK) return fail();
    printf("chip load %.4f mm at %.1f mm/min along the contour\n", chip_load, feed_rate);
    for (k = 0; k < MOVES; k++) {
        printf("curvature %6.3f 1/mm: ", moves[k].curvature);
        if (statuses[k] == TENTHS_OK)
            printf("centre at %.1f mm/min\n", moves[k].centre_feed);
        else /* this cutter does not fit the arc; the other moves have their feeds all the same */
            puts(tenths_status_text(statuses[k]));
    }
    printf("%d of %d moves cannot be made with this cutter\n", (int)refused, MOVES);
    if (print_path(moves, statuses) != TENTHS_OK) return fail();
    return EXIT_SUCCESS;
}
