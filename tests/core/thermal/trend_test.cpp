// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/trend.h"

#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <vector>

using namespace midden;

namespace {

std::vector<HeatPoint> daily(std::initializer_list<double> values) {
    std::vector<HeatPoint> points;
    for (const double value : values) {
        points.push_back({Instant{86'400 * static_cast<std::int64_t>(points.size())}, value});
    }
    return points;
}

constexpr Instant never{86'400 * 1'000};

}  // namespace

TEST_CASE("the trend of points on a line is the line") {
    const auto trend = trendOf(daily({60, 58, 56, 54}));
    REQUIRE(trend);
    CHECK(trend->perHour == Approx(-2.0 / 24));
    CHECK(trend->at(Instant{86'400 * 2}) == Approx(56));
    CHECK(trend->reaches(45, Instant{86'400 * 3}) == Instant{86'400 * 3 + 388'800});
    CHECK_FALSE(trend->reaches(65, Instant{0}));
    CHECK_FALSE(trendOf(daily({60})));
}

// Sen 1968, J. Am. Stat. Assoc. 63:1379-1389, works with the median of the slopes: one wild point moves none of it far.
TEST_CASE("one wild point among five does not turn the trend") {
    const auto trend = trendOf(daily({60, 60, 6, 60, 60}));
    REQUIRE(trend);
    CHECK(trend->perHour == Approx(0));
}

TEST_CASE("a steady fall is foretold and neither two points nor one typing slip are") {
    CHECK(fallsThrough(daily({60, 56, 52}), 45, never) == Instant{86'400 * 2 + 151'200});
    CHECK_FALSE(fallsThrough(daily({60, 52}), 45, never));
    CHECK_FALSE(fallsThrough(daily({60, 60, 46}), 45, never));
    CHECK_FALSE(fallsThrough(daily({60, 60, 60, 46}), 45, never));
    CHECK_FALSE(fallsThrough(daily({60, 56, 52}), 45, Instant{86'400 * 3}));
    CHECK_FALSE(fallsThrough(daily({50, 52, 54}), 45, never));
}

TEST_CASE("no single changed reading of a steady bin raises a falling trend", "[random]") {
    CHECK(rc::check("no single changed reading raises a falling trend", [] {
        const auto count = static_cast<std::size_t>(*rc::gen::inRange(3, 9));
        std::vector<HeatPoint> points;
        for (std::size_t i = 0; i < count; ++i) {
            points.push_back({Instant{86'400 * static_cast<std::int64_t>(i)}, 60});
        }
        points[static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(count)))].celsius =
            *rc::gen::inRange(-60, 150);
        RC_ASSERT(!fallsThrough(points, 45, never));
    }));
}
