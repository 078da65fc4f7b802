/* A sound one of each kind of handle, for faults.h: make_ and the name of its type. */
#ifndef HANDLES_H
#define HANDLES_H
#include "tenths.h"
#include <stdlib.h>

static inline void *make_tenths_stack(void) {
    static const char *const names[] = {"housing", "ring", "shaft", "shim"};
    tenths_stack *stack = NULL;
    size_t k;
    if (tenths_stack_new(TENTHS_METRIC, &stack) != TENTHS_OK) abort();
    for (k = 0; k < sizeof names / sizeof *names; k++) {
        if (tenths_stack_add_text(stack, names[k], "12 +0.018/0 mm", k == 0 ? 1.0 : -0.5, NULL) != TENTHS_OK) abort();
    }
    return stack;
}

static inline tenths_sampling few_samples(void) {
    tenths_sampling sampling;
    sampling.struct_size = sizeof sampling;
    if (tenths_sampling_init(200, 1, &sampling) != TENTHS_OK) abort();
    return sampling;
}

static inline void *make_tenths_sample(void) {
    tenths_stack *stack = (tenths_stack *)make_tenths_stack();
    tenths_sampling sampling = few_samples();
    tenths_sample *sample = NULL;
    if (tenths_stack_sample(stack, &sampling, &sample) != TENTHS_OK) abort();
    tenths_stack_free(stack);
    return sample;
}

static inline void *make_tenths_blocks(void) {
    tenths_stack *stack = (tenths_stack *)make_tenths_stack();
    tenths_sampling sampling = few_samples();
    tenths_blocks *blocks = NULL;
    if (tenths_stack_sample_blocks(stack, &sampling, 0, 1, &blocks) != TENTHS_OK) abort();
    tenths_stack_free(stack);
    return blocks;
}

/* Its first input. */
static inline double sound_function(const double *inputs, void *context) {
    (void)context;
    return inputs[0];
}

static inline void *make_tenths_propagation(void) {
    tenths_input inputs[4];
    tenths_propagation *propagation = NULL;
    size_t k;
    for (k = 0; k < 4; k++) {
        inputs[k].struct_size = sizeof *inputs;
        if (tenths_input_init(&inputs[k]) != TENTHS_OK) abort();
        inputs[k].name = "input";
        inputs[k].nominal = 2.0;
        inputs[k].plus = 0.1;
    }
    if (tenths_propagate(sound_function, NULL, inputs, 4, &propagation) != TENTHS_OK) abort();
    return propagation;
}

/* One mode of a turning tool. */
static inline void *make_tenths_chatter(void) {
    static const double frequency[] = {500.0}, stiffness[] = {10000.0}, damping[] = {0.05};
    tenths_chatter_cut cut;
    tenths_chatter *chatter = NULL;
    cut.struct_size = sizeof cut;
    if (tenths_chatter_cut_init(2000.0, &cut) != TENTHS_OK) abort();
    if (tenths_chatter_new(TENTHS_METRIC, frequency, stiffness, damping, NULL, 1, &cut, &chatter) != TENTHS_OK) abort();
    return chatter;
}

static inline void *make_tenths_allocation(void) {
    tenths_stack *stack = (tenths_stack *)make_tenths_stack();
    tenths_choice choice;
    tenths_allocation *allocation = NULL;
    choice.struct_size = sizeof choice;
    if (tenths_choice_init(&choice) != TENTHS_OK) abort();
    choice.scale = 1.0;
    choice.least = 0.001;
    if (tenths_stack_allocate(stack, &choice, 1, TENTHS_WORST_CASE, 0.1, 0.0, &allocation) != TENTHS_OK) abort();
    tenths_stack_free(stack);
    return allocation;
}

/* Half of a regular triangle over any diameter, so that phi is 60. */
static inline void *make_tenths_vector_loop(void) {
    tenths_vector_loop *around = NULL;
    if (tenths_vector_loop_new("phi", 50.0, "b", 2.0, &around) != TENTHS_OK) abort();
    if (tenths_vector_loop_link(around, "diameter", "0") != TENTHS_OK) abort();
    if (tenths_vector_loop_link(around, "b", "90") != TENTHS_OK) abort();
    if (tenths_vector_loop_link(around, "2 diameter", "180 + phi") != TENTHS_OK) abort();
    return around;
}

/* A bar of 80 mm, of which speed and feed may be chosen. */
static inline void *make_tenths_cut_problem(void) {
    const double arguments[] = {100, 80, 0.2, 3, 250, 1.2, 2200, 0.2, 90, 0, 0, 0.01, 1, 0.8};
    tenths_cut_problem *problem = NULL;
    if (tenths_cut_problem_new(TENTHS_METRIC, "turning_cut_for_target", arguments, 14, &problem) != TENTHS_OK) abort();
    if (tenths_cut_problem_choose(problem, "surface_speed", 10, 500) != TENTHS_OK) abort();
    if (tenths_cut_problem_choose(problem, "feed_per_revolution", 0.05, 0.5) != TENTHS_OK) abort();
    if (tenths_cut_problem_rates(problem, 48, 2, 1, 0) != TENTHS_OK) abort();
    if (tenths_cut_problem_tool_life(problem, 300, 0.25, 0.35, 0, 1, 1) != TENTHS_OK) abort();
    if (tenths_cut_problem_law(problem, "deflection", 2e-5) != TENTHS_OK) abort();
    return problem;
}

/* Bytes that tenths_blocks_from_bytes reads. */
static inline void *sound_bytes(size_t *length) {
    tenths_blocks *blocks = (tenths_blocks *)make_tenths_blocks();
    uint8_t *bytes;
    if (tenths_blocks_to_bytes(blocks, NULL, 0, length) != TENTHS_OK) abort();
    bytes = (uint8_t *)malloc(*length);
    if (bytes == NULL || tenths_blocks_to_bytes(blocks, bytes, *length, NULL) != TENTHS_OK) abort();
    tenths_blocks_free(blocks);
    return bytes;
}
#endif
