/* Long work from C: a function is told how far it is, and stops it. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SAMPLES = 200000, ROWS = 300000, PERCENTAGES = 200 };

/* What a function was told, and the call that is to stop the work; none of number 0. */
struct told {
    int calls, last, rises;
    double fraction;
};

static int tell(void *context, double fraction) {
    struct told *told = (struct told *)context;
    told->calls++;
    told->rises = told->rises && fraction >= told->fraction && fraction <= 1.0;
    told->fraction = fraction;
    return told->calls == told->last;
}

static tenths_watch watching(struct told *told, int last) {
    tenths_watch watch;
    watch.struct_size = sizeof watch;
    CHECK(tenths_watch_init(&watch) == TENTHS_OK && watch.progress == NULL && watch.context == NULL);
    told->calls = 0, told->last = last, told->rises = 1, told->fraction = 0.0;
    watch.progress = tell;
    watch.context = told;
    return watch;
}

/* Whether the work was told to its end, or stopped at its second call. */
static int is_whole(const struct told *told) { return told->rises && told->calls > 1 && told->fraction == 1.0; }
static int is_stopped(const struct told *told) { return told->rises && told->calls == 2 && told->fraction < 1.0; }

static void samples(void) {
    tenths_stack *stack = NULL;
    tenths_sampling sampling;
    tenths_sample *sample = NULL;
    tenths_blocks *blocks = NULL;
    struct told told;
    tenths_watch watch = watching(&told, 0);
    char message[100];
    double *percents = (double *)malloc(2 * PERCENTAGES * sizeof *percents);
    int k;
    if (percents == NULL) abort();
    CHECK(tenths_stack_new(TENTHS_METRIC, &stack) == TENTHS_OK);
    CHECK(tenths_stack_add_text(stack, "length", "20 +0.1/-0.1 mm", 1.0, NULL) == TENTHS_OK);
    sampling.struct_size = sizeof sampling;
    CHECK(tenths_sampling_init(SAMPLES, 1, &sampling) == TENTHS_OK && sampling.watch == NULL);
    sampling.threads = 1;
    sampling.watch = &watch;
    CHECK(tenths_stack_sample(stack, &sampling, &sample) == TENTHS_OK && is_whole(&told));

    for (k = 0; k < PERCENTAGES; k++) percents[k] = k * 0.5;
    watch = watching(&told, 2);
    CHECK(tenths_sample_percentiles(sample, percents, PERCENTAGES, percents + PERCENTAGES, NULL, &watch) == TENTHS_STOPPED);
    CHECK(is_stopped(&told) && isnan(percents[PERCENTAGES]));
    watch = watching(&told, 0);
    CHECK(tenths_sample_percentiles(sample, percents, PERCENTAGES, percents + PERCENTAGES, NULL, &watch) == TENTHS_OK);
    CHECK(is_whole(&told) && percents[PERCENTAGES] < 20.0);
    tenths_sample_free(sample);

    watch = watching(&told, 2);
    CHECK(tenths_stack_sample(stack, &sampling, &sample) == TENTHS_STOPPED && sample == NULL && is_stopped(&told));
    tenths_error_message(message, sizeof message);
    CHECK(strcmp(message, "the work was stopped before its end") == 0);
    watch = watching(&told, 2);
    CHECK(tenths_stack_sample_blocks(stack, &sampling, 2, 3, &blocks) == TENTHS_STOPPED && blocks == NULL);
    CHECK(is_stopped(&told));
    watch.struct_size = 8;
    CHECK(tenths_stack_sample(stack, &sampling, &sample) == TENTHS_BAD_STRUCT_SIZE);
    tenths_stack_free(stack);
    free(percents);
}

static double product(const double *inputs, void *context) {
    (void)context;
    return inputs[0] * inputs[1];
}

static void functions(void) {
    tenths_input inputs[2];
    tenths_propagation *propagation = NULL;
    tenths_sampling sampling;
    tenths_sample *sample = NULL;
    tenths_blocks *blocks = NULL;
    struct told told;
    tenths_watch watch = watching(&told, 0);
    int k;
    for (k = 0; k < 2; k++) {
        inputs[k].struct_size = sizeof *inputs;
        CHECK(tenths_input_init(&inputs[k]) == TENTHS_OK);
        inputs[k].name = k == 0 ? "a" : "b";
        inputs[k].nominal = 3.0 + k;
        inputs[k].plus = 0.1;
        inputs[k].minus = -0.1;
    }
    CHECK(tenths_propagate(product, NULL, inputs, 2, &propagation) == TENTHS_OK);
    sampling.struct_size = sizeof sampling;
    CHECK(tenths_sampling_init(SAMPLES, 1, &sampling) == TENTHS_OK);
    sampling.watch = &watch;
    CHECK(tenths_propagation_sample(propagation, &sampling, &sample) == TENTHS_OK && is_whole(&told));
    tenths_sample_free(sample);
    watch = watching(&told, 2);
    CHECK(tenths_propagation_sample(propagation, &sampling, &sample) == TENTHS_STOPPED && sample == NULL && is_stopped(&told));
    watch = watching(&told, 2);
    CHECK(tenths_propagation_sample_blocks(propagation, &sampling, 2, 3, &blocks) == TENTHS_STOPPED && blocks == NULL);
    CHECK(is_stopped(&told));
    tenths_propagation_free(propagation);
}

static void batches(void) {
    double *diameters = (double *)malloc(2 * ROWS * sizeof *diameters), *speeds = diameters + ROWS, speed = 1000.0;
    tenths_column arguments[2];
    tenths_result_column result;
    size_t refused;
    struct told told;
    tenths_watch watch = watching(&told, 0);
    int k;
    if (diameters == NULL) abort();
    for (k = 0; k < ROWS; k++) diameters[k] = k % 100 == 50 ? -1.0 : 10.0;
    arguments[0].first = diameters, arguments[0].stride = sizeof(double);
    arguments[1].first = &speed, arguments[1].stride = 0;
    result.first = speeds, result.stride = sizeof(double);
    CHECK(tenths_formula_batch("surface_speed", TENTHS_METRIC, ROWS, arguments, 2, &result, 1, NULL, NULL, &refused, &watch) ==
          TENTHS_OK);
    CHECK(is_whole(&told) && refused == ROWS / 100 && isnan(speeds[ROWS - 50]) && speeds[ROWS - 1] == speeds[0]);
    watch = watching(&told, 2);
    CHECK(tenths_formula_batch("surface_speed", TENTHS_METRIC, ROWS, arguments, 2, &result, 1, NULL, NULL, NULL, &watch) ==
          TENTHS_STOPPED);
    CHECK(is_stopped(&told));
    free(diameters);
}

static void plans(void) {
    static const char variation[] =
        "{\"count\": 20, \"varying\": [{\"place\": \"/bar/bar_length\", \"limits\": \"3000 +10/-10 mm\"}]}";
    FILE *file = fopen("examples/plans/roller_axle.json", "rb");
    char *text = (char *)malloc(100000), *made = NULL;
    size_t length;
    struct told told;
    tenths_watch watch = watching(&told, 0);
    if (file == NULL || text == NULL) abort();
    length = fread(text, 1, 100000, file);
    fclose(file);
    CHECK(tenths_plan_propagate(text, length, variation, sizeof variation - 1, &watch, &made) == TENTHS_OK && made != NULL);
    CHECK(is_whole(&told) && told.calls == 20);
    tenths_text_free(made);
    watch = watching(&told, 2);
    CHECK(tenths_plan_propagate(text, length, variation, sizeof variation - 1, &watch, &made) == TENTHS_STOPPED && made == NULL);
    CHECK(is_stopped(&told));
    free(text);
}

int main(void) {
    samples();
    functions();
    batches();
    plans();
    return finish();
}
