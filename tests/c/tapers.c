/* Standard tapers through the C header: reprinted tables of Morse tapers (0.938 in, 0.60235 in per foot, 1.4377 degrees),
   the Jarno rule, and 7:24 at 1 3/4 in. */
#include "check.h"
#include "tenths.h"
#include <math.h>

static tenths_standard_taper taper_of(const char *designation) {
    tenths_standard_taper taper;
    taper.struct_size = sizeof taper;
    CHECK(tenths_make_standard_taper(designation, &taper) == TENTHS_OK);
    tenths_standard_taper_clear(&taper);
    return taper;
}

int main(void) {
    const int64_t inch = INT64_C(25400000000);
    tenths_standard_taper taper = taper_of("MT3");
    CHECK(taper.large_diameter == 938 * inch / 1000 && taper.small_diameter == 778 * inch / 1000);
    CHECK(fabs(12 * taper.taper - 0.60235) < 1e-12 && fabs(taper.half_angle - 1.4377) < 5e-5);
    CHECK(taper.included_angle == 2 * taper.half_angle && taper.family == 0 && !taper.is_from_memory);
    taper = taper_of("Jarno 7");
    CHECK(taper.large_diameter == 7 * inch / 8 && taper.small_diameter == 7 * inch / 10 && taper.length == 7 * inch / 2);
    taper = taper_of("7:24 No. 40");
    CHECK(taper.large_diameter == 7 * inch / 4 && !taper.has_small_diameter && !taper.has_length && taper.family == 2);
    CHECK(taper_of("metric 80").is_from_memory);
    CHECK(tenths_make_standard_taper("Morse 8", &taper) == TENTHS_BAD_TAPER);
    CHECK(tenths_make_standard_taper(NULL, &taper) == TENTHS_NULL_POINTER);
    CHECK(tenths_make_standard_taper("MT3", NULL) == TENTHS_NULL_POINTER);
    taper.struct_size = 8;
    CHECK(tenths_make_standard_taper("MT3", &taper) == TENTHS_BAD_STRUCT_SIZE);
    return finish();
}
