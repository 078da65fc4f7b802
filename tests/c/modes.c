/* Rounding in every direction, traps, and numbers below the normal range taken as zero: every formula gives the bits that
 * it gives in the usual mode, and the mode stays as the caller set it. */
#define _GNU_SOURCE
#define main parity_main
#include "parity.c"
#undef main

#include <fenv.h>
#include <stdlib.h>
#if defined(__x86_64__)
#include <xmmintrin.h>
enum { ZERO_SMALL = 0x8040 };
static unsigned modes(void) { return _mm_getcsr(); }
static void zero_small_numbers(void) { _mm_setcsr(_mm_getcsr() | ZERO_SMALL); }
#else
static unsigned modes(void) { return (unsigned)fegetround(); }
static void zero_small_numbers(void) {}
#endif

/* A percentile of a sampled stack and its error, as bits. */
static void sample(uint64_t bits[2]) {
    tenths_stack *stack = NULL;
    tenths_sampling sampling;
    tenths_sample *drawn = NULL;
    double percent = 99.0, percentile = 0.0, error = 0.0;
    sampling.struct_size = sizeof sampling;
    if (tenths_sampling_init(20000, 7, &sampling) != TENTHS_OK || tenths_stack_new(TENTHS_METRIC, &stack) != TENTHS_OK ||
        tenths_stack_add_text(stack, "housing", "40 +0.05/0 mm", 1.0, NULL) != TENTHS_OK ||
        tenths_stack_add_text(stack, "shaft", "39.9 0/-0.08 mm", -1.0, NULL) != TENTHS_OK ||
        tenths_stack_sample(stack, &sampling, &drawn) != TENTHS_OK ||
        tenths_sample_percentiles(drawn, &percent, 1, &percentile, &error, NULL) != TENTHS_OK)
        abort();
    bits[0] = bits_of(percentile);
    bits[1] = bits_of(error);
    tenths_sample_free(drawn);
    tenths_stack_free(stack);
}

int main(void) {
    static const int directions[] = {FE_TONEAREST, FE_UPWARD, FE_DOWNWARD, FE_TOWARDZERO};
    uint64_t usual[2], odd[2];
    char message[100], usual_message[100];
    double speed;
    size_t k;
    int way;
    sample(usual);
    CHECK(tenths_surface_speed(TENTHS_METRIC, -1.1, 1000.0, &speed) == TENTHS_ARGUMENT);
    tenths_error_message(usual_message, sizeof usual_message);
    for (k = 0; k < sizeof directions / sizeof *directions; k++) {
        for (way = 0; way < 3; way++) {
            unsigned before;
            fesetenv(FE_DFL_ENV);
            fesetround(directions[k]);
            if (way == 1) zero_small_numbers();
            if (way == 2) feenableexcept(FE_DIVBYZERO | FE_INVALID | FE_OVERFLOW | FE_UNDERFLOW | FE_INEXACT);
            before = modes();
            CHECK(parity_main() == 0);
            sample(odd);
            CHECK(memcmp(odd, usual, sizeof odd) == 0);
            CHECK(tenths_surface_speed(TENTHS_METRIC, -1.1, 1000.0, &speed) == TENTHS_ARGUMENT);
            tenths_error_message(message, sizeof message);
            CHECK(strcmp(message, usual_message) == 0);
            CHECK(k == 0 && way == 0 ? (modes() & ~0x3fu) == (before & ~0x3fu) : modes() == before);
        }
    }
    fesetenv(FE_DFL_ENV);
    return finish();
}
