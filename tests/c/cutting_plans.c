/* The plans of tests/published/cutting_plans.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 9, MOST = 100 };

static int64_t picometres(const char *text) {
    char *unit;
    double number = strtod(text, &unit);
    double scale = strncmp(unit, " in", 3) == 0 ? 25.4e9 : strncmp(unit, " ft", 3) == 0 ? 304.8e9 : 1e9;
    return (int64_t)floor(number * scale + 0.5);
}

static int split(char *line, char **fields, const char *between) {
    int count = 0;
    char *end;
    for (;; line = end + strlen(between)) {
        end = strstr(line, between);
        if (count < MOST) fields[count] = line;
        count++;
        if (end == NULL) return count;
        *end = '\0';
    }
}

/* The pieces of a line in its layouts, as often as they are wanted. */
static void check_pieces(const tenths_cutting_plan *plan, const tenths_ordered_piece *pieces, size_t count) {
    size_t k, layout, piece;
    for (k = 0; k < count; k++) {
        uint64_t cut = 0;
        for (layout = 0; layout < plan->layouts_count; layout++) {
            const tenths_cutting_layout *of = &plan->layouts[layout];
            for (piece = 0; piece < of->pieces_count; piece++) {
                if (of->pieces[piece].length == pieces[k].length) {
                    cut += (uint64_t)(of->times * of->pieces[piece].count);
                }
            }
        }
        CHECK(cut == pieces[k].count);
    }
}

static int plan_line(char *line) {
    char *fields[MOST], *parts[MOST];
    tenths_ordered_piece pieces[MOST];
    tenths_cutting_bar bars[MOST];
    double prices[MOST], reached;
    int piece_count, bar_count, k, priced = 0;
    tenths_cutting_options options;
    tenths_cutting_plan plan;
    line[strcspn(line, "\r\n")] = '\0';
    if (split(line, fields, ";") != FIELDS) return 0;
    options.struct_size = sizeof options;
    CHECK(tenths_cutting_options_init(&options) == TENTHS_OK);
    options.kerf = picometres(fields[1]);
    options.end_trim = picometres(fields[2]);
    piece_count = split(fields[3], parts, ", ");
    for (k = 0; k < piece_count; k++) {
        pieces[k].length = picometres(parts[k]);
        pieces[k].count = strtoul(strstr(parts[k], " x ") + 3, NULL, 10);
    }
    bar_count = split(fields[4], parts, ", ");
    for (k = 0; k < bar_count; k++) {
        const char *available = strstr(parts[k], " x "), *price = strstr(parts[k], "@ ");
        bars[k].length = picometres(parts[k]);
        bars[k].is_limited = available != NULL;
        bars[k].available = available == NULL ? 0 : strtoul(available + 3, NULL, 10);
        if (price != NULL) {
            prices[k] = strtod(price + 2, NULL);
            priced = 1;
        }
    }
    memset(&plan, 0, sizeof plan);
    plan.struct_size = sizeof plan;
    CHECK(tenths_make_cutting_plan(TENTHS_METRIC, pieces, (size_t)piece_count, bars, (size_t)bar_count,
                                   priced ? prices : NULL, &options, &plan) == TENTHS_OK);
    reached = strcmp(fields[5], "price") == 0 ? plan.cost : (double)plan.bars;
    if (fabs(reached - strtod(fields[6], NULL)) > 1e-9) printf("%s: %g\n", fields[0], reached);
    CHECK(fabs(reached - strtod(fields[6], NULL)) < 1e-9);
    CHECK(plan.proven == 1 && plan.has_cost == priced);
    check_pieces(&plan, pieces, (size_t)piece_count);
    tenths_cutting_plan_clear(&plan);
    return 1;
}

static int stop(void *context, double fraction) {
    (void)context;
    (void)fraction;
    return 1;
}

static void refusals(void) {
    tenths_ordered_piece piece = {INT64_C(1000000000000), 13};
    tenths_cutting_bar bar = {INT64_C(6000000000000), 2, 1};
    tenths_cutting_options options;
    tenths_cutting_plan plan;
    tenths_watch watch;
    char message[200];
    memset(&plan, 0, sizeof plan);
    plan.struct_size = sizeof plan;
    CHECK(tenths_make_cutting_plan(TENTHS_METRIC, &piece, 1, &bar, 1, NULL, NULL, &plan) == TENTHS_NO_CUTTING_PLAN);
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "the bars do not hold all pieces: 2 of 6000 mm") != NULL);
    CHECK(tenths_make_cutting_plan(TENTHS_METRIC, &piece, 1, &bar, 0, NULL, NULL, &plan) == TENTHS_NO_CUTTING_PLAN);
    options.struct_size = sizeof options;
    CHECK(tenths_cutting_options_init(&options) == TENTHS_OK);
    options.time_limit = -1;
    CHECK(tenths_make_cutting_plan(TENTHS_METRIC, &piece, 1, &bar, 1, NULL, &options, &plan) == TENTHS_BAD_OPTION);
    tenths_error_message(message, sizeof message);
    CHECK(strcmp(message, "time_limit must be a number of seconds, zero or more, not -1") == 0);
    options.time_limit = 10;
    options.work_limit = -1;
    CHECK(tenths_make_cutting_plan(TENTHS_METRIC, &piece, 1, &bar, 1, NULL, &options, &plan) == TENTHS_BAD_OPTION);
    tenths_error_message(message, sizeof message);
    CHECK(strcmp(message, "work_limit must be a whole number, zero or more, not -1") == 0);
    options.work_limit = 0;
    options.struct_size = sizeof options - 1;
    CHECK(tenths_make_cutting_plan(TENTHS_METRIC, &piece, 1, &bar, 1, NULL, &options, &plan) == TENTHS_BAD_STRUCT_SIZE);
    options.struct_size = sizeof options;
    watch.struct_size = sizeof watch;
    CHECK(tenths_watch_init(&watch) == TENTHS_OK);
    watch.progress = stop;
    options.watch = &watch;
    bar.is_limited = 0;
    CHECK(tenths_make_cutting_plan(TENTHS_METRIC, &piece, 1, &bar, 1, NULL, &options, &plan) == TENTHS_STOPPED);
    tenths_cutting_plan_clear(&plan);
}

int main(void) {
    static char line[65536];
    int plans = 0;
    FILE *file = fopen("tests/published/cutting_plans.csv", "r");
    CHECK(file != NULL);
    while (file != NULL && fgets(line, sizeof line, file) != NULL) {
        if (*line != '#') plans += plan_line(line);
    }
    if (file != NULL) fclose(file);
    CHECK(plans >= 15);
    refusals();
    return finish();
}
