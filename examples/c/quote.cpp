// Time and bar stock for a batch of knurled rollers, from the C++17 header.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <stdexcept>
#include <string>
#include "tenths.hpp"

namespace {

using tenths::metric;

// Each `value()` throws `tenths::error` with the message of the library if there is no answer.
double sawing_time(double bar_diameter, double sawing_rate) {
    const double pi = std::acos(-1.0);
    return tenths::sawing_time(metric, pi / 4 * bar_diameter * bar_diameter, sawing_rate).value();
}

// One pass on a lathe; its feed is what a cutter of one tooth takes.
double turning_time(double diameter, double surface_speed, double feed, double travel) {
    const double spindle_speed = tenths::spindle_speed(metric, surface_speed, diameter).value();
    const double feed_rate = tenths::feed_rate(metric, feed, 1, spindle_speed).value();
    return tenths::cutting_time(metric, travel, feed_rate).value();
}

double parts_per_bar(double part_length) {
    tenths::parts_per_bar_input input(metric);
    input.bar_length = 3000;
    input.part_length = part_length;
    input.kerf = 1.5;
    input.facing_allowance = 1;
    input.end_trim = 10;
    input.remnant = 60;
    return tenths::parts_per_bar(metric, input).value();
}

double knurl_growth(double pitch, double profile_angle) {
    tenths::knurl_growth_input input(metric);
    input.pitch = pitch;
    input.profile_angle = profile_angle;
    std::uint32_t advice = 0;
    const double growth = tenths::knurl_growth(metric, input, &advice).value();
    const double numbers[] = {pitch, profile_angle};
    if (advice != 0) {
        const auto remarks = tenths::make(tenths_formula_remarks, "knurl_growth", metric, numbers, 2u).value();
        std::printf("note: %s", remarks.c_str());
    }
    return growth;
}

void quote(int quantity, double diameter, double length) {
    const double saw = sawing_time(diameter, 25);                          // cm²/min
    const double turn = 2 * turning_time(diameter, 120, 0.2, length + 2);  // m/min, mm, mm
    const double knurl = turning_time(diameter, 20, 0.3, 20);
    const double handling = 0.8, setting_up = 45;
    const double each = saw + turn + knurl + handling;
    const double bars = std::ceil(quantity / parts_per_bar(length));
    std::printf("blank before knurling: %.3f mm\n", diameter - knurl_growth(1, 60));
    std::printf("saw %.4f + turn %.4f + knurl %.4f + handle %.4f = %.4f min each\n", saw, turn, knurl, handling, each);
    std::printf("%d rollers: %.0f bars, %.2f h\n", quantity, bars, (each * quantity + setting_up) / 60);
}

}  // namespace

int main(int count, char **words) {
    try {
        if (count == 1) {
            quote(250, 25, 60);
        } else if (count == 4) {
            quote(std::stoi(words[1]), std::stod(words[2]), std::stod(words[3]));
        } else {
            throw std::invalid_argument("usage: quote [QUANTITY DIAMETER LENGTH]");
        }
        return EXIT_SUCCESS;
    } catch (const std::exception &failure) {
        std::fprintf(stderr, "no quote: %s\n", failure.what());
        return EXIT_FAILURE;
    }
}
