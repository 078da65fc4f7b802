/* Knurls of the standards through the C header. DIN 82:1973, line RKV in print; Machinery's Handbook, 31st ed., p. 1060,
   table 4: class I in print, III from memory. */
#include "check.h"
#include "tenths.h"

static tenths_knurl knurl_of(const char *designation) {
    tenths_knurl knurl;
    knurl.struct_size = sizeof knurl;
    CHECK(tenths_make_knurl(designation, &knurl) == TENTHS_OK);
    tenths_knurl_clear(&knurl);
    return knurl;
}

int main(void) {
    const int64_t millimetre = INT64_C(1000000000), tenth = INT64_C(2540000);
    tenths_knurl knurl = knurl_of("RKV 1.0");
    CHECK(knurl.has_growth && 20 * millimetre - knurl.growth == 1967 * millimetre / 100);
    CHECK(knurl.pitch == millimetre && knurl.pattern == TENTHS_KNURL_PATTERN_INDENTED && !knurl.has_tolerance);
    knurl = knurl_of("96 DP");
    CHECK(knurl.has_tolerance && knurl.tolerance_crest_upper == 40 * tenth && knurl.tolerance_crest_lower == -100 * tenth);
    knurl = knurl_of("128 DP class III");
    CHECK(knurl.tolerance_blank_upper == 0 && knurl.tolerance_blank_lower == -7 * tenth);
    knurl = knurl_of("96 DP raised");
    CHECK(!knurl.has_growth && knurl.growth == 0);
    CHECK(tenths_make_knurl("RAA 0.7", &knurl) == TENTHS_BAD_KNURL);
    knurl.struct_size = 8;
    CHECK(tenths_make_knurl("RAA 0.8", &knurl) == TENTHS_BAD_STRUCT_SIZE);
    return finish();
}
