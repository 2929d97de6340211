// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/equivalent.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace midden;
using namespace midden::literals;

namespace {
Track track(std::initializer_list<std::pair<int, Celsius>> points) {
    Track made;
    for (const auto& [hour, temperature] : points) {
        made.samples.emplace_back(Instant{hour * 3'600}, temperature);
    }
    return made;
}
double days(std::initializer_list<Track> tracks) {
    return daysAtTenCelsius({tracks.begin(), tracks.size()}, hours(36));
}
}  // namespace

// Common practice, no source: the rate doubles per 10 °C, so a day at 60 °C is 32 days at 10 °C.
TEST_CASE("a day at 60 is 32 days at 10") {
    CHECK(days({track({{0, 60_degC}, {24, 60_degC}})}) == Approx(32));
    CHECK(days({track({{0, 10_degC}, {24, 10_degC}})}) == Approx(1));
}

TEST_CASE("a slope is integrated in closed form") {
    // ∫ from 50 to 60 over a day: 24 h · 10/(ln 2 · 10) · (2^5 − 2^4)
    CHECK(days({track({{0, 50_degC}, {24, 60_degC}})}) == Approx((32 - 16) / std::numbers::ln2));
}

TEST_CASE("the warmest position counts even where the lines cross") {
    const auto rising = track({{0, 50_degC}, {24, 60_degC}});
    const auto falling = track({{0, 60_degC}, {24, 50_degC}});
    const double half = 2 * (32 - std::exp2(4.5)) / std::numbers::ln2 / 1;
    CHECK(days({rising, falling}) == Approx(half));
    CHECK(days({rising, rising}) == Approx(days({rising})));
}

TEST_CASE("gaps are left out") {
    CHECK(days({track({{0, 60_degC}, {37, 60_degC}})}) == 0);
    CHECK(days({track({{0, 60_degC}, {24, 60_degC}, {70, 60_degC}})}) == Approx(32));
    CHECK(days({track({{0, 60_degC}})}) == 0);
    CHECK(days({}) == 0);
    CHECK(days({track({{0, 60_degC}, {40, 60_degC}}), track({{10, 20_degC}, {34, 20_degC}})}) == Approx(2));
}
