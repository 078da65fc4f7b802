/* The figures of tests/published/sampling*.csv through the C header. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 9 };

static int split(char *line, char **fields) {
    int count = 0;
    line[strcspn(line, "\r\n")] = '\0';
    for (;;) {
        char *end = strchr(line, ';');
        if (count < FIELDS) fields[count] = line;
        count++;
        if (end == NULL) return count;
        *end = '\0';
        line = end + 1;
    }
}

/* What is given by a name, copied to `to`; the words stand with spaces between them. */
static const char *given(const char *words, const char *name, char *to, const char *otherwise) {
    size_t length = strlen(name);
    strcpy(to, otherwise);
    while (words != NULL) {
        if (strncmp(words, name, length) == 0 && words[length] == '=') {
            size_t end = strcspn(words + length + 1, " ");
            memcpy(to, words + length + 1, end);
            to[end] = '\0';
        }
        words = strchr(words, ' ');
        if (words != NULL) words++;
    }
    return to;
}

static double number(const char *words, const char *name) {
    char text[200];
    return strtod(given(words, name, text, "0"), NULL);
}

static int near(double got, const char *figure) {
    const char *point = strchr(figure, '.');
    double want = strtod(figure, NULL), within = 0.5 * pow(10, point == NULL ? 0 : -(double)strlen(point + 1));
    return fabs(got - want) <= within * (1 + 1e-9) + 1e-13 * fabs(want);
}

static tenths_status make(const char *call, const char *words, tenths_sampling_plan *plan) {
    char text[200], other[200];
    size_t lot = (size_t)number(words, "lot");
    if (strcmp(call, "standard") == 0) {
        return tenths_make_sampling_plan(lot, number(words, "aql"), given(words, "level", text, ""),
                                         given(words, "severity", other, ""), "single", "ISO 2859-1", plan);
    }
    if (strcmp(call, "stages") == 0) return tenths_make_staged_plan(given(words, "samples", text, ""), lot, "normal", plan);
    if (strcmp(call, "zero") == 0) {
        return tenths_make_zero_acceptance_plan(lot, "LTPD", number(words, "ltpd"), number(words, "risk"), plan);
    }
    return tenths_make_two_point_plan(number(words, "aql"), number(words, "ltpd"), number(words, "producer_risk"),
                                      number(words, "consumer_risk"), plan);
}

static int figure(const tenths_sampling_plan *plan, const char *words, const char *quantity, const char *want) {
    char text[200];
    const char *model = given(words, "model", text, "binomial");
    tenths_plan_performance got;
    tenths_status status;
    if (strcmp(quantity, "code_letter") == 0) return plan->has_code_letter && strcmp(plan->code_letter, want) == 0;
    if (strcmp(quantity, "plan_letter") == 0) return plan->has_plan_letter && strcmp(plan->plan_letter, want) == 0;
    if (strcmp(quantity, "sample_size") == 0) return plan->sample_size == atol(want);
    if (strcmp(quantity, "accept") == 0) return plan->has_accept && plan->accept == atol(want);
    if (strcmp(quantity, "reject") == 0) return plan->reject == atol(want);
    got.struct_size = sizeof got;
    if (strstr(words, " worst") != NULL) {
        status = tenths_sampling_worst_outgoing(plan->samples, (size_t)plan->lot, model, &got);
    } else {
        status = tenths_sampling_performance(plan->samples, (size_t)plan->lot, number(words, "p"), model, &got);
    }
    if (status != TENTHS_OK) return 0;
    if (strcmp(quantity, "fraction") == 0) return near(got.fraction, want);
    if (strcmp(quantity, "acceptance_probability") == 0) return near(got.acceptance_probability, want);
    if (strcmp(quantity, "average_outgoing_quality") == 0) return near(got.average_outgoing_quality, want);
    if (strcmp(quantity, "average_sample_number") == 0) return near(got.average_sample_number, want);
    if (strcmp(quantity, "average_total_inspection") == 0) return near(got.average_total_inspection, want);
    return 0;
}

static int variables_line(char **f) {
    tenths_variables_plan plan;
    char text[200];
    double chance;
    plan.struct_size = sizeof plan;
    if (tenths_make_variables_plan(number(f[1], "aql"), number(f[1], "ltpd"), number(f[1], "producer_risk"),
                                   number(f[1], "consumer_risk"), given(f[1], "sigma", text, ""), &plan) != TENTHS_OK) {
        return 0;
    }
    if (strcmp(f[2], "sample_size") == 0) return plan.sample_size == atol(f[3]);
    if (strcmp(f[2], "k") == 0) return near(plan.k, f[3]);
    return tenths_variables_acceptance((size_t)plan.sample_size, plan.k, text, number(f[1], "p"), &chance) == TENTHS_OK &&
           near(chance, f[3]);
}

static int plan_line(char **f) {
    tenths_sampling_plan plan;
    int good;
    if (strcmp(f[0], "variables") == 0) return variables_line(f);
    plan.struct_size = sizeof plan;
    good = make(f[0], f[1], &plan) == TENTHS_OK && figure(&plan, f[1], f[2], f[3]);
    tenths_sampling_plan_clear(&plan);
    return good;
}

/* The largest lot of each code letter at level II; R has none. */
static size_t lots[128];

static int letter_line(char **f) {
    static const char *const levels[] = {"S-1", "S-2", "S-3", "S-4", "I", "II", "III"};
    size_t lot = *f[1] ? (size_t)atol(f[1]) : 600000, k;
    int good = 1;
    lots[(unsigned char)*f[7]] = lot;
    for (k = 0; k < 7; k++) {
        tenths_sampling_plan plan;
        plan.struct_size = sizeof plan;
        good &= tenths_make_sampling_plan(lot, 1.0, levels[k], "normal", "single", "MIL-STD-105E", &plan) == TENTHS_OK &&
                strcmp(plan.code_letter, f[2 + k]) == 0;
        tenths_sampling_plan_clear(&plan);
    }
    return good;
}

static int cell_line(char **f) {
    tenths_sampling_plan plan;
    const int is_r = strcmp(f[0], "R") == 0;
    size_t lot = is_r ? 600000 : lots[(unsigned char)*f[0]];
    int64_t size = atol(f[4]);
    int good;
    plan.struct_size = sizeof plan;
    good = tenths_make_sampling_plan(lot, strtod(f[1], NULL), is_r ? "III" : "II", "normal", "single", "ISO 2859-1", &plan) ==
               TENTHS_OK &&
           strcmp(plan.plan_letter, f[3]) == 0 && plan.sample_size == (size < (int64_t)lot ? size : (int64_t)lot) &&
           plan.accept == atol(f[5]) && plan.reject == atol(f[6]);
    tenths_sampling_plan_clear(&plan);
    return good;
}

static void published(const char *name, int (*judge)(char **), int fields, int least) {
    char line[600], *parts[FIELDS];
    int lines = 0;
    FILE *file = fopen(name, "rb");
    CHECK(file != NULL);
    if (file == NULL) return;
    while (fgets(line, sizeof line, file) != NULL) {
        char copy[600];
        int good;
        if (strncmp(line, "# ", 2) == 0) continue;
        strcpy(copy, line);
        good = split(line, parts) >= fields && judge(parts);
        CHECK(good);
        if (!good) printf("%s", copy);
        lines++;
    }
    fclose(file);
    CHECK(lines >= least);
}

static void lots_are_judged(void) {
    tenths_switching state;
    tenths_lot_verdict verdict;
    tenths_sampling_plan plan;
    const size_t found[] = {2, 1};
    state.struct_size = sizeof state;
    CHECK(tenths_judge_lot("50/1/4, 50/4/5", found, 1, &verdict) == TENTHS_OK && verdict == TENTHS_LOT_NEXT_SAMPLE);
    CHECK(tenths_judge_lot("50/1/4, 50/4/5", found, 2, &verdict) == TENTHS_OK && verdict == TENTHS_LOT_ACCEPTED);
    CHECK(tenths_judge_lot("50/1/2", found, 1, &verdict) == TENTHS_OK && verdict == TENTHS_LOT_REJECTED);
    CHECK(tenths_judge_lot("50/1/2", found, 2, &verdict) == TENTHS_NO_SAMPLING_PLAN && verdict == -1);
    CHECK(tenths_make_switching("normal", "A3 R0 A3 R0", 0, &state) == TENTHS_OK);
    CHECK(state.severity == 1 && state.lots == 4);
    tenths_switching_clear(&state);
    CHECK(tenths_make_switching("normal", NULL, 0, &state) == TENTHS_OK && state.lots == 0);
    tenths_switching_clear(&state);
    CHECK(tenths_make_switching("normal", "A3 B", 0, &state) == TENTHS_NO_SAMPLING_PLAN);
    tenths_switching_clear(&state);
    plan.struct_size = sizeof plan;
    CHECK(tenths_make_sampling_plan(1000, 1.0, "II", "reduced", "single", "ISO 2859-1", &plan) == TENTHS_NO_SAMPLING_PLAN);
    tenths_sampling_plan_clear(&plan);
}

int main(void) {
    published("tests/published/sampling_code_letters.csv", letter_line, 9, 15);
    published("tests/published/sampling_single_normal.csv", cell_line, 9, 416);
    published("tests/published/sampling.csv", plan_line, 6, 140);
    lots_are_judged();
    return finish();
}
