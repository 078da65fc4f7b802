// Time and bar stock for a batch of knurled rollers, from the C interface in C++17.
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <initializer_list>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>
#include "tenths.h"

namespace {

constexpr tenths_units units = TENTHS_METRIC;

// Throws the message of a call that failed.
void require(tenths_status status) {
    if (status == TENTHS_OK) return;
    std::string message(tenths_error_message(nullptr, 0), '\0');
    tenths_error_message(message.data(), message.size() + 1);
    throw std::runtime_error(std::string(tenths_status_text(status)) + ": " + message);
}

// A text that the library returned, freed with its owner.
struct FreeText {
    void operator()(char *text) const { tenths_text_free(text); }
};
using Text = std::unique_ptr<char, FreeText>;

// The remarks of a formula on these arguments, one per line; empty if there are none.
Text remarks(const char *formula, std::initializer_list<double> arguments) {
    const std::vector<double> numbers(arguments);
    char *text = nullptr;
    require(tenths_formula_remarks(formula, units, numbers.data(), numbers.size(), &text));
    return Text(text);
}

double sawing_time(double bar_diameter, double sawing_rate) {
    const double pi = std::acos(-1.0);
    double minutes;
    require(tenths_sawing_time(units, pi / 4 * bar_diameter * bar_diameter, sawing_rate, &minutes));
    return minutes;
}

// One pass on a lathe; its feed is what a cutter of one tooth takes.
double turning_time(double diameter, double surface_speed, double feed, double travel) {
    double spindle_speed, feed_rate, minutes;
    require(tenths_spindle_speed(units, surface_speed, diameter, &spindle_speed));
    require(tenths_feed_rate(units, feed, 1, spindle_speed, &feed_rate));
    require(tenths_cutting_time(units, travel, feed_rate, &minutes));
    return minutes;
}

double parts_per_bar(double part_length) {
    tenths_parts_per_bar_input input;
    input.struct_size = sizeof input;
    require(tenths_parts_per_bar_init(units, &input));
    input.bar_length = 3000;
    input.part_length = part_length;
    input.kerf = 1.5;
    input.facing_allowance = 1;
    input.end_trim = 10;
    input.remnant = 60;
    double parts;
    require(tenths_parts_per_bar(units, &input, &parts, nullptr));
    return parts;
}

double knurl_growth(double pitch, double profile_angle) {
    tenths_knurl_growth_input input;
    input.struct_size = sizeof input;
    require(tenths_knurl_growth_init(units, &input));
    input.pitch = pitch;
    input.profile_angle = profile_angle;
    double growth;
    std::uint32_t advice = 0;
    require(tenths_knurl_growth(units, &input, &growth, &advice));
    if (advice != 0) std::printf("note: %s", remarks("knurl_growth", {pitch, profile_angle}).get());
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
