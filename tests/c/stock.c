/* The figures of tests/published/stock.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST = 32 };

static int split(char *line, char **fields, char between) {
    int count = 1;
    fields[0] = line;
    for (; *line != '\0'; line++) {
        if (*line != between || count == MOST) continue;
        *line = '\0';
        fields[count++] = line + 1;
    }
    return count;
}

static int64_t picometres(const char *text) {
    char *unit;
    double number = strtod(text, &unit);
    return (int64_t)floor(number * (strncmp(unit, " in", 3) == 0 ? 25.4e9 : 1e9) + 0.5);
}

static int near(double value, const char *printed, double within) {
    return fabs(value - strtod(printed, NULL)) <= within + 1e-9;
}

static void bar_order(char **f) {
    tenths_bar_cut cut;
    tenths_bar_order order;
    order.struct_size = sizeof order;
    cut.bar_length = picometres(f[2]);
    cut.part_length = picometres(f[3]);
    cut.kerf = picometres(f[4]);
    cut.facing_allowance = picometres(f[5]);
    cut.end_trim = picometres(f[6]);
    cut.remnant = picometres(f[7]);
    CHECK(tenths_bars_to_buy(strtoull(f[1], NULL, 10), &cut, strtod(f[8], NULL), &order) == TENTHS_OK);
    CHECK(near((double)order.parts_per_bar, f[9], 0) && near((double)order.bars, f[10], 0));
    CHECK(order.length_used == picometres(f[11]) && order.leftover == picometres(f[12]));
    CHECK(near(order.utilisation, f[13], 0));
}

static void break_even(char **f) {
    double fixed[2], each[2];
    tenths_kept_limits limits[2] = {{0, 0, 0}, {0, 0, 0}};
    tenths_make_or_buy judged;
    judged.struct_size = sizeof judged;
    fixed[0] = strtod(f[1], NULL), each[0] = strtod(f[2], NULL);
    fixed[1] = strtod(f[3], NULL), each[1] = strtod(f[4], NULL);
    CHECK(tenths_judge_make_or_buy("20 h9", limits, fixed, each, 2, strtoull(f[6], NULL, 10), &judged) == TENTHS_OK);
    CHECK(judged.break_evens_count == 1 && judged.rows_count == 2 && strcmp(judged.best, "2") == 0);
    CHECK(near(judged.break_evens[0].quantity, f[5], 0) && near((double)judged.break_evens[0].cheaper_from, f[6], 0));
    CHECK(near(judged.rows[0].cost, f[7], 0) && near(judged.rows[1].cost, f[8], 0));
    tenths_make_or_buy_clear(&judged);
    /* Stock of a wider class does not meet the drawing. */
    limits[0].lower = INT64_C(19870000000), limits[0].upper = INT64_C(20000000000), limits[0].is_limited = 1;
    CHECK(tenths_judge_make_or_buy("20 h9", limits, fixed, each, 1, 5, &judged) == TENTHS_OK);
    CHECK(!judged.rows[0].meets && judged.best == NULL);
    tenths_make_or_buy_clear(&judged);
}

static void machine_load(char **f) {
    char *orders[MOST], *names[MOST], *ends[MOST], *lates[MOST];
    uint64_t quantities[MOST];
    double setups[MOST], cycles[MOST], dues[MOST];
    tenths_machine_load load;
    int k, count = split(f[1], orders, ',');
    load.struct_size = sizeof load;
    for (k = 0; k < count; k++) {
        char *parts[MOST], *text = orders[k] + (*orders[k] == ' ');
        split(text, parts, ' ');
        orders[k] = parts[0];
        quantities[k] = strtoull(parts[1], NULL, 10);
        setups[k] = strtod(parts[2], NULL), cycles[k] = strtod(parts[3], NULL), dues[k] = strtod(parts[4], NULL);
    }
    CHECK(tenths_load_machine(quantities, setups, cycles, dues, (size_t)count, 0, &load) == TENTHS_OK);
    CHECK(load.rows_count == (size_t)count && split(f[2], names, ' ') == count);
    CHECK(split(f[3], ends, ' ') == count && split(f[4], lates, ' ') == count);
    for (k = 0; k < count; k++) {
        CHECK(strcmp(orders[atoi(load.rows[k].order) - 1], names[k]) == 0);
        CHECK(near(load.rows[k].ends, ends[k], 0) && near(load.rows[k].late, lates[k], 0));
    }
    tenths_machine_load_clear(&load);
}

static void hardness(char **f) {
    tenths_hardness_comparison found;
    double figures[5], within = strtod(f[8], NULL);
    int k;
    found.struct_size = sizeof found;
    CHECK(tenths_compare_hardness(TENTHS_METRIC, strtod(f[2], NULL), f[1], &found) == TENTHS_OK);
    figures[0] = found.vickers, figures[1] = found.brinell, figures[2] = found.rockwell_b;
    figures[3] = found.rockwell_c, figures[4] = found.tensile_strength;
    for (k = 0; k < 5; k++) {
        if (f[3 + k][0] == '-') CHECK(isnan(figures[k]));
        else if (f[3 + k][0] != '\0') CHECK(near(figures[k], f[3 + k], within));
    }
    tenths_hardness_comparison_clear(&found);
}

static void masses(void) {
    double mass, formula;
    CHECK(tenths_bar_mass(TENTHS_METRIC, "round", 20, 0, 1000, 7.85, &mass) == TENTHS_OK);
    CHECK(near(mass, "2.466150233", 0));
    CHECK(tenths_round_bar_mass(TENTHS_METRIC, 20, 1000, 7.85, &formula) == TENTHS_OK && mass == formula);
    CHECK(tenths_bar_mass(TENTHS_METRIC, "tube", 30, 3, 6000, 7.85, &mass) == TENTHS_OK && near(mass, "11.985490133", 0));
    CHECK(tenths_bar_mass_per_length(TENTHS_INCH, "hexagon", 1, 0, 0.2833, &mass) == TENTHS_OK);
    CHECK(near(mass * 12, "35.33", 0.005));
    CHECK(tenths_bar_mass(TENTHS_METRIC, "tube", 30, 15, 6000, 7.85, &mass) == TENTHS_RULE && isnan(mass));
    CHECK(tenths_bar_mass(TENTHS_METRIC, "tube", 30, 0, 6000, 7.85, &mass) == TENTHS_NO_STOCK && isnan(mass));
    CHECK(tenths_bar_mass(TENTHS_METRIC, "rod", 30, 0, 6000, 7.85, &mass) == TENTHS_NO_STOCK);
}

static void sizes(void) {
    const int64_t own[] = {INT64_C(18000000000), INT64_C(22000000000), INT64_C(20000000000)};
    tenths_bar_size size;
    size_t count = 0;
    size.struct_size = sizeof size;
    CHECK(tenths_next_bar_size(INT64_C(157480000000), "inch hot rolled", &size) == TENTHS_OK);
    CHECK(size.size == INT64_C(158750000000) && strstr(size.source, "A29") != NULL);
    tenths_bar_size_clear(&size);
    CHECK(tenths_next_own_bar_size(INT64_C(19950000000), own, 3, &size) == TENTHS_OK && size.size == own[2]);
    tenths_bar_size_clear(&size);
    while (tenths_bar_size_at("inch drill rod", count, &size) == TENTHS_OK) {
        tenths_bar_size_clear(&size);
        count++;
    }
    CHECK(count == 45 && tenths_bar_size_at("inch drill rod", count, &size) == TENTHS_BAD_INDEX);
    CHECK(tenths_next_bar_size(1, "drill rod", &size) == TENTHS_NO_STOCK);
}

static void shared_plan(void) {
    const tenths_ordered_piece pieces[] = {{INT64_C(4000000000000), 2}, {INT64_C(2000000000000), 1}, {INT64_C(2000000000000), 1}};
    const uint64_t orders[] = {7, 12, 12};
    const tenths_cutting_bar bar = {INT64_C(6000000000000), 0, 0};
    const double price = 30;
    tenths_shared_cutting_plan made;
    char *picture;
    made.struct_size = sizeof made;
    CHECK(tenths_make_shared_cutting_plan(TENTHS_METRIC, pieces, orders, 3, &bar, 1, &price, NULL, &made) == TENTHS_OK);
    CHECK(made.plan_bars == 2 && made.shares_count == 2 && made.cuts_count == 2);
    CHECK(strcmp(made.shares[0].order, "7") == 0 && near(made.shares[0].cost, "40", 0) && near(made.shares[1].cost, "20", 0));
    CHECK(strcmp(made.cuts[1].order, "12") == 0 && made.cuts[1].count == 2);
    tenths_shared_cutting_plan_clear(&made);
    CHECK(tenths_cutting_plan_svg(TENTHS_METRIC, pieces, 3, &bar, 1, NULL, NULL, &picture) == TENTHS_OK);
    CHECK(strncmp(picture, "<svg ", 5) == 0 && strstr(picture, "2 \xc3\x97") != NULL);
    tenths_text_free(picture);
    CHECK(tenths_cutting_plan_svg(TENTHS_METRIC, pieces, 3, &bar, 0, NULL, NULL, &picture) == TENTHS_NO_CUTTING_PLAN);
    CHECK(picture == NULL);
}

int main(void) {
    static const struct { const char *name; void (*check)(char **fields); int lines; } kinds[] = {
        {"bar_order", bar_order, 6}, {"break_even", break_even, 2}, {"machine_load", machine_load, 3}, {"hardness", hardness, 13},
    };
    int seen[4] = {0, 0, 0, 0}, k;
    static char line[4096];
    FILE *file = fopen("tests/published/stock.csv", "r");
    CHECK(file != NULL);
    while (file != NULL && fgets(line, sizeof line, file) != NULL) {
        char *fields[MOST];
        split(line, fields, ';');
        for (k = 0; k < 4; k++) {
            if (strcmp(fields[0], kinds[k].name) == 0) kinds[k].check(fields), seen[k]++;
        }
    }
    if (file != NULL) fclose(file);
    for (k = 0; k < 4; k++) CHECK(seen[k] == kinds[k].lines);
    masses();
    sizes();
    shared_plan();
    return finish();
}
