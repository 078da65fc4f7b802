// The C++17 header: results with and without exceptions, objects that free themselves, columns of every shape.
#include "tenths.hpp"
#include "check.h"

#include <cmath>
#include <cstring>
#include <string>
#include <string_view>
#include <vector>

namespace {

struct move {
    double length, curvature, feed;
};

void results() {
    const tenths::result<double> speed = tenths::surface_speed(tenths::metric, 60.0, 1200.0);
    double plain = 0.0;
    CHECK(tenths_surface_speed(TENTHS_METRIC, 60.0, 1200.0, &plain) == TENTHS_OK);
    CHECK(speed && speed.status() == TENTHS_OK && *speed == plain && speed.value() == plain && speed.value_or(1.0) == plain);
    const tenths::result<double> refused = tenths::surface_speed(tenths::metric, -60.0, 1200.0);
    CHECK(!refused && refused.status() == TENTHS_ARGUMENT && refused.value_or(1.0) == 1.0);
    CHECK(refused.message() == "surface_speed: diameter must be greater than 0 mm, not -60 mm");
#if defined(__cpp_exceptions)
    try {
        refused.value();
        CHECK(false);
    } catch (const tenths::error &error) {
        CHECK(error.status() == TENTHS_ARGUMENT && std::strstr(error.what(), "not -60 mm") != nullptr);
    }
#endif
}

void structs() {
    tenths::press_fit_input input(tenths::metric);
    CHECK(std::isnan(input.interference) && input.struct_size == sizeof(tenths_press_fit_input));
    input.interference = 0.02;
    input.diameter = input.length = 20.0;
    input.hub_outer_diameter = 40.0;
    input.hub_modulus = input.shaft_modulus = 210.0;
    input.hub_poisson = input.shaft_poisson = 0.3;
    input.friction = 0.1;
    std::uint32_t advice = 7;
    const auto joint = tenths::press_fit(tenths::metric, input, &advice);
    CHECK(joint && joint->torque > 0.0 && advice == 0);
    input.hub_outer_diameter = 15.0;
    CHECK(tenths::press_fit(tenths::metric, input).status() == TENTHS_RULE);
}

void objects() {
    auto fit = tenths::make(tenths_make_fit, "25 H7/g6").value();
    tenths::object<tenths_fit> moved = std::move(fit);
    CHECK(moved->struct_size == sizeof(tenths_fit));
    fit = tenths::make(tenths_make_fit, "25 H7/p6").value();
    CHECK(tenths::make(tenths_make_fit, "25 H7/g99").status() == TENTHS_BAD_FIT);
    tenths::handle<tenths_stack> stack = tenths::make(tenths_stack_new, tenths::metric).value();
    CHECK(tenths_stack_add_text(stack.get(), "housing", "40 +0.05/0 mm", 1.0, nullptr) == TENTHS_OK);
    auto options = tenths::make(tenths_sampling_init, 200u, 1u).value();
    const auto sample = tenths::make(tenths_stack_sample, stack.get(), options.get());
    CHECK(sample && *sample != nullptr);
    const double odd[] = {60.0, 1e7};
    const auto remarks = tenths::make(tenths_formula_remarks, "surface_speed", tenths::inch, odd, 2u).value();
    const std::string_view view = remarks;
    CHECK(!view.empty() && std::strlen(remarks.c_str()) == view.size() && *tenths::text().c_str() == '\0');
}

void columns() {
    std::vector<move> moves = {{1.0, 0.0, 0.0}, {2.0, 0.04, 0.0}, {3.0, -0.04, 0.0}, {4.0, 0.5, 0.0}};
    std::vector<tenths_status> statuses(moves.size());
    const auto refused = tenths::batch(
        "arc_feed_rate", tenths::metric, {500.0, {moves.data(), moves.size(), &move::curvature}, 12.0},
        {{moves.data(), moves.size(), &move::feed}}, statuses.data());
    CHECK(refused && *refused == 1 && statuses[3] == TENTHS_RULE && std::isnan(moves[3].feed));
    CHECK(moves[0].feed == 500.0 && std::fabs(moves[1].feed - 380.0) < 1e-9 && std::fabs(moves[2].feed - 620.0) < 1e-9);

    const std::vector<double> diameters = {10.0, 20.0};
    std::vector<double> speeds(2), few(1);
    CHECK(tenths::batch("surface_speed", tenths::inch, {diameters, 1000.0}, {speeds}).has_value());
    CHECK(speeds[1] == *tenths::surface_speed(tenths::inch, 20.0, 1000.0));
    const auto uneven = tenths::batch("surface_speed", tenths::inch, {diameters, few}, {speeds});
    CHECK(uneven.status() == TENTHS_BAD_COUNT && uneven.message().find("count of numbers") != std::string::npos);
    CHECK(tenths::batch("surface_speed", tenths::inch, {diameters, 1000.0}, {few}).status() == TENTHS_BAD_COUNT);
    CHECK(tenths::batch("surfac_speed", tenths::inch, {diameters, 1000.0}, {speeds}).message() ==
          "`surfac_speed` is not a formula. Is it `surface_speed`?");
    const std::vector<double> none;
    std::vector<double> nothing;
    CHECK(*tenths::batch("surface_speed", tenths::inch, {none, 1000.0}, {nothing}) == 0);
}

} // namespace

int main() {
    results();
    structs();
    objects();
    columns();
    return finish();
}
