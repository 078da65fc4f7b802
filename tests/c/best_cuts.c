/* The choices of tests/published/best_cuts.csv through the C header, and what a problem may be. Run from the root. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 16, MOST = 32 };

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

/* Cuts a part at its first blank or equals sign; gives what stands behind it. */
static char *behind(char *part) {
    char *at = part + strcspn(part, " =");
    *at = '\0';
    return at + 1;
}

static double end_of(const char *text, double none) { return *text == '\0' ? none : strtod(text, NULL); }

/* A range `least..greatest`, either end of which may be left out. */
static void ends(char *text, double *least, double *greatest) {
    char *dots = strstr(text, "..");
    *dots = '\0';
    *least = end_of(text, -INFINITY);
    *greatest = end_of(dots + 2, INFINITY);
}

static void add_law(tenths_cut_problem *problem, char *part) {
    char *words[MOST], *law = behind(part);
    int k, count = split(law + 2, words, " ");
    CHECK(tenths_cut_problem_law(problem, part, strtod(words[0], NULL)) == TENTHS_OK);
    for (k = 1; k < count; k++) {
        char *exponent = strchr(words[k], '^');
        *exponent = '\0';
        CHECK(tenths_cut_problem_law_power(problem, words[k], strtod(exponent + 1, NULL)) == TENTHS_OK);
    }
}

static void numbers(char *field, double *to, int count) {
    int k;
    for (k = 0; k < count; k++) to[k] = strtod(field, &field);
}

static double chosen(const tenths_best_cut *best, const char *name) {
    size_t k;
    for (k = 0; k < best->chosen_count; k++) {
        if (strcmp(best->chosen_names[k], name) == 0) return best->chosen[k];
    }
    return NAN;
}

static int cut_line(char *line) {
    char *fields[MOST], *parts[MOST];
    double arguments[MOST], least, greatest, number[6];
    size_t k;
    int part, part_count;
    tenths_formula_info formula;
    tenths_units units;
    tenths_cut_problem *problem = NULL;
    tenths_best_cut best;
    line[strcspn(line, "\r\n")] = '\0';
    if (split(line, fields, ";") != FIELDS) return 0;
    units = strcmp(fields[1], "inch") == 0 ? TENTHS_INCH : TENTHS_METRIC;
    formula.struct_size = sizeof formula;
    CHECK(tenths_formula_describe(fields[2], &formula) == TENTHS_OK);
    part_count = split(fields[3], parts, ", ");
    for (part = 0; part < part_count; part++) behind(parts[part]);
    for (k = 0; k < formula.arguments; k++) {
        tenths_argument_info info;
        info.struct_size = sizeof info;
        CHECK(tenths_formula_argument(fields[2], k, units, &info) == TENTHS_OK);
        arguments[k] = info.has_default ? info.default_value : NAN;
        for (part = 0; part < part_count; part++) {
            if (strcmp(parts[part], info.name) == 0) arguments[k] = strtod(parts[part] + strlen(parts[part]) + 1, NULL);
        }
    }
    CHECK(tenths_cut_problem_new(units, fields[2], arguments, formula.arguments, &problem) == TENTHS_OK);
    part_count = split(fields[4], parts, ", ");
    for (part = 0; part < part_count; part++) {
        ends(behind(parts[part]), &least, &greatest);
        if (*parts[part] == '+') {
            CHECK(tenths_cut_problem_unknown(problem, parts[part] + 1, least, greatest) == TENTHS_OK);
        } else {
            CHECK(tenths_cut_problem_choose(problem, parts[part], least, greatest) == TENTHS_OK);
        }
    }
    if (strcmp(fields[6], "-") != 0) {
        part_count = split(fields[6], parts, ", ");
        for (part = 0; part < part_count; part++) add_law(problem, parts[part]);
    }
    if (strcmp(fields[5], "-") != 0) {
        part_count = split(fields[5], parts, ", ");
        for (part = 0; part < part_count; part++) {
            ends(behind(parts[part]), &least, &greatest);
            CHECK(tenths_cut_problem_limit(problem, parts[part], least, greatest) == TENTHS_OK);
        }
    }
    part_count = split(fields[7], parts, ", ");
    for (part = 0; part < part_count; part++) {
        double weight = strchr(parts[part], ' ') == NULL ? 1.0 : strtod(behind(parts[part]), NULL);
        CHECK(tenths_cut_problem_minimise(problem, parts[part], weight) == TENTHS_OK);
    }
    if (strcmp(fields[8], "-") != 0) {
        numbers(fields[8], number, 4);
        CHECK(tenths_cut_problem_rates(problem, number[0], number[1], number[2], number[3]) == TENTHS_OK);
    }
    if (strcmp(fields[9], "-") != 0) {
        numbers(fields[9], number, 6);
        CHECK(tenths_cut_problem_tool_life(problem, number[0], number[1], number[2], number[3], number[4], number[5]) == TENTHS_OK);
    }
    if (strcmp(fields[10], "-") != 0) {
        CHECK(tenths_cut_problem_path_length(problem, strtod(fields[10], NULL)) == TENTHS_OK);
    }
    best.struct_size = sizeof best;
    CHECK(tenths_find_best_cut(problem, &best) == TENTHS_OK);
    CHECK(fabs(best.objective - strtod(fields[12], NULL)) <= strtod(fields[13], NULL) * best.objective);
    CHECK(best.has_lower_bound && best.lower_bound <= best.objective && best.lower_bound > best.objective * (1 - 1e-8));
    part_count = split(fields[11], parts, ", ");
    for (part = 0; part < part_count; part++) {
        double wanted = strtod(behind(parts[part]), NULL);
        CHECK(fabs(chosen(&best, parts[part]) - wanted) <= fmax(sqrt(strtod(fields[13], NULL)), 2e-4) * wanted);
    }
    tenths_best_cut_clear(&best);
    tenths_cut_problem_free(problem);
    return 1;
}

static tenths_cut_problem *turning(void) {
    const double arguments[] = {NAN, 80, NAN, 3, 250, 1.2, 2200, 0, 90, 0, 0, 0.01, 1, 0.8};
    tenths_cut_problem *problem = NULL;
    CHECK(tenths_cut_problem_new(TENTHS_METRIC, "turning_cut_for_target", arguments, 14, &problem) == TENTHS_OK);
    CHECK(tenths_cut_problem_choose(problem, "surface_speed", 10, 500) == TENTHS_OK);
    CHECK(tenths_cut_problem_choose(problem, "feed_per_revolution", 0.05, 0.5) == TENTHS_OK);
    CHECK(tenths_cut_problem_rates(problem, 48, 2, 1, 0) == TENTHS_OK);
    CHECK(tenths_cut_problem_tool_life(problem, 300, 0.25, 0.35, 0, 1, 1) == TENTHS_OK);
    CHECK(tenths_cut_problem_limit(problem, "motor_power", -INFINITY, 7.5) == TENTHS_OK);
    return problem;
}

/* 0.8 a minute and 2.8 an edge, of the arguments, the results, and tool life and edges for a piece. */
static double own_cost(const double *figures, void *context) {
    ++*(int *)context;
    return 0.8 * figures[14 + 9] + 2.8 * figures[14 + 12 + 1];
}

/* The deepest cut of one mode, within its lobes. */
static void check_stable_depth(tenths_cut_problem *problem) {
    const double frequency = 600, stiffness = 8000, damping = 0.03, direction = NAN;
    tenths_chatter *chatter = NULL;
    tenths_chatter_cut cut;
    tenths_best_cut best;
    double speed, depth = 0;
    best.struct_size = sizeof best;
    cut.struct_size = sizeof cut;
    CHECK(tenths_chatter_cut_init(2200, &cut) == TENTHS_OK && tenths_chatter_cut_init(NAN, &cut) == TENTHS_ARGUMENT);
    CHECK(tenths_chatter_new(TENTHS_METRIC, &frequency, &stiffness, &damping, &direction, 1, &cut, &chatter) == TENTHS_OK);
    CHECK(tenths_cut_problem_stability(problem, NULL) == TENTHS_NULL_POINTER);
    CHECK(tenths_cut_problem_stability(problem, chatter) == TENTHS_OK);
    CHECK(tenths_cut_problem_choose(problem, "depth", 0.2, 5) == TENTHS_OK);
    /* At slower speeds there are more lobes than are told apart. */
    CHECK(tenths_cut_problem_limit(problem, "spindle_speed", 600, 1200) == TENTHS_OK);
    CHECK(tenths_cut_problem_maximise(problem, "removal_rate") == TENTHS_OK);
    CHECK(tenths_find_best_cut(problem, &best) == TENTHS_OK && best.chosen_count == 3);
    if (best.chosen_count < 3) return;
    speed = 1000 * best.chosen[0] / (3.14159265358979323846 * 80);
    CHECK(tenths_chatter_depths(chatter, TENTHS_METRIC, &speed, 1, &depth) == TENTHS_OK);
    CHECK(best.chosen[2] <= depth * (1 + 1e-8) && best.chosen[2] > 0.2);
    tenths_best_cut_clear(&best);
    tenths_chatter_free(chatter);
}

/* Teeth between two ends, a nose radius from a list, and a quantity of one's own. */
static void check_values(void) {
    const double radii[] = {0.4, 1.6, 0.8};
    const double arguments[] = {20, NAN, 2000, NAN, 8, 6, 1700, 0.25, 90, 0, 0, 0.01, 1, 0.8};
    tenths_cut_problem *problem = turning();
    tenths_best_cut best;
    best.struct_size = sizeof best;
    CHECK(tenths_cut_problem_choose_from(problem, "nose_radius", radii, 3) == TENTHS_OK);
    CHECK(tenths_cut_problem_limit(problem, "roughness_ra", -INFINITY, 1.6) == TENTHS_OK);
    CHECK(tenths_cut_problem_unknown(problem, "x", 1, 4) == TENTHS_OK);
    CHECK(tenths_find_best_cut(problem, &best) == TENTHS_OK && chosen(&best, "nose_radius") == 1.6);
    CHECK(best.chosen_count == 4 && chosen(&best, "x") >= 1);
    tenths_best_cut_clear(&best);
    CHECK(tenths_cut_problem_choose_from(problem, "depth", radii, 0) == TENTHS_OK);
    CHECK(tenths_find_best_cut(problem, &best) == TENTHS_NO_BEST_CUT);
    tenths_best_cut_clear(&best);
    tenths_cut_problem_free(problem);
    CHECK(tenths_cut_problem_new(TENTHS_METRIC, "milling_cut", arguments, 14, &problem) == TENTHS_OK);
    CHECK(tenths_cut_problem_choose(problem, "teeth", 2, 5) == TENTHS_OK);
    CHECK(tenths_cut_problem_choose(problem, "chip_load", 0.03, 0.15) == TENTHS_OK);
    CHECK(tenths_cut_problem_maximise(problem, "removal_rate") == TENTHS_OK);
    CHECK(tenths_find_best_cut(problem, &best) == TENTHS_OK && chosen(&best, "teeth") == 5);
    tenths_best_cut_clear(&best);
    tenths_cut_problem_free(problem);
}

static void check_calls(void) {
    static const char lathe[] = "{\"units\": \"metric\", \"least_spindle_speed\": 50, \"greatest_spindle_speed\": 300}";
    const double steps[] = {280, 355, 450}, covariance[] = {1e-4, 0, 0, 1e-3};
    tenths_cut_problem *problem = turning();
    const tenths_cut_problem *both[2];
    double objectives[2], numbers_chosen[4];
    tenths_status statuses[2];
    tenths_best_cut best, own;
    tenths_best_passes passes;
    tenths_cut_spread spread;
    char message[400];
    int calls = 0;
    best.struct_size = own.struct_size = sizeof best;
    passes.struct_size = sizeof passes;
    spread.struct_size = sizeof spread;
    CHECK(tenths_cut_problem_steps(problem, "spindle_speed", steps, 3) == TENTHS_OK);
    CHECK(tenths_find_best_cut(problem, &best) == TENTHS_OK);
    CHECK(best.binding_count >= 1 && best.prices_count == best.binding_count && best.has_set_objective);
    CHECK(best.set_objective >= best.objective && best.set_count == 2);
    both[0] = both[1] = problem;
    CHECK(tenths_find_best_cuts(both, 2, 2, 2, objectives, numbers_chosen, statuses, NULL) == TENTHS_OK);
    CHECK(objectives[0] == best.objective && objectives[1] == best.objective && statuses[1] == TENTHS_OK);
    CHECK(numbers_chosen[2] == best.chosen[0] && numbers_chosen[3] == best.chosen[1]);
    tenths_cut_problem_free(problem);

    problem = turning();
    CHECK(tenths_find_best_cut_by(problem, own_cost, &calls, &own) == TENTHS_OK);
    CHECK(calls > 1000 && !own.has_lower_bound && fabs(own.objective - best.objective) < 1e-4 * best.objective);
    CHECK(tenths_find_cut_spread(problem, covariance, 2, 200, 1, 2, NULL, &spread) == TENTHS_OK);
    CHECK(spread.samples == 200 && spread.mean_loss >= 0 && spread.chosen_low[0] < spread.chosen_high[0]);
    CHECK(tenths_find_best_passes(problem, NULL, "depth", 4, 1, 3, 1, 3, 0.5, 0.2, TENTHS_DIAMETER_FALLS, 0, 1, NULL, &passes) ==
          TENTHS_OK);
    CHECK(passes.passes_count >= 2 && fabs(passes.lower_bound - passes.objective) < 1e-7);
    CHECK(tenths_cut_problem_machine(problem, lathe, sizeof lathe - 1) == TENTHS_OK);
    tenths_best_cut_clear(&own);
    CHECK(tenths_find_best_cut(problem, &own) == TENTHS_OK && own.objective > best.objective);
    CHECK(tenths_cut_problem_limit(problem, "removal_rate", 300, INFINITY) == TENTHS_OK);
    tenths_best_cut_clear(&own);
    CHECK(tenths_find_best_cut(problem, &own) == TENTHS_NO_BEST_CUT && isnan(own.objective));
    tenths_error_message(message, sizeof message);
    CHECK(strstr(message, "removal_rate at least 300") != NULL && strstr(message, "Fix:") != NULL);
    tenths_cut_problem_free(problem);
    problem = turning();
    check_stable_depth(problem);
    tenths_best_cut_clear(&best);
    tenths_best_cut_clear(&own);
    tenths_best_passes_clear(&passes);
    tenths_cut_spread_clear(&spread);
    tenths_cut_problem_free(problem);
}

int main(void) {
    static char line[8192];
    int lines = 0;
    FILE *file = fopen("tests/published/best_cuts.csv", "r");
    if (file == NULL) {
        puts("best_cuts.csv cannot be read: 0 passed, 1 failed");
        return 1;
    }
    while (fgets(line, sizeof line, file) != NULL) {
        if (line[0] != '#') lines += cut_line(line);
    }
    fclose(file);
    CHECK(lines == 34);
    check_calls();
    check_values();
    return finish();
}
