// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/credit.h"

#include <catch2/catch.hpp>
#include <utility>

using namespace midden;
using namespace midden::literals;

namespace {

/// Hours since the start and temperature.
std::vector<Sample> samples(std::initializer_list<std::pair<double, Celsius>> points) {
    std::vector<Sample> made;
    for (const auto& [hour, temperature] : points) {
        made.emplace_back(Instant{static_cast<std::int64_t>(hour * 3'600)}, temperature, 1_K);
    }
    return made;
}

const Limits at55{55_degC};

}  // namespace

TEST_CASE("an interval is credited whole when both ends qualify and not at all otherwise") {
    const auto log =
        samples({{0, 56_degC}, {24, 57_degC}, {48, 54.9_degC}, {72, 56_degC}, {96, 57_degC}, {120, 57_degC}});
    const auto runs = creditedRuns(log, at55, hours(36));
    REQUIRE(runs.size() == 2);
    CHECK(runs[0].length() == hours(24));
    CHECK(runs[1].length() == hours(48));
    CHECK(total(runs) == hours(72));
    CHECK(longest(runs) == hours(48));
}

TEST_CASE("exactly at the threshold qualifies unless the rule says exceeds") {
    const auto log = samples({{0, 55_degC}, {24, 55_degC}});
    CHECK(total(creditedRuns(log, at55, hours(36))) == hours(24));
    CHECK(creditedRuns(log, {55_degC, true}, hours(36)).empty());
    CHECK(interpolatedRuns(log, {55_degC, true}, hours(36)).empty());
    CHECK(total(interpolatedRuns(log, at55, hours(36))) == hours(24).count);
}

TEST_CASE("the ceiling is still in and above it is out") {
    const Limits band{55_degC, false, 65_degC};
    CHECK(total(creditedRuns(samples({{0, 55_degC}, {10, 65_degC}}), band, hours(36))) == hours(10));
    CHECK(creditedRuns(samples({{0, 55_degC}, {10, 65.0001_degC}}), band, hours(36)).empty());
    const auto line = interpolatedRuns(samples({{0, 45_degC}, {30, 75_degC}}), band, hours(36));
    REQUIRE(line.size() == 1);
    CHECK(line[0].seconds() == Approx(10 * 3'600));
}

TEST_CASE("an interval of just the longest gap counts and a second more does not") {
    const auto log = samples({{0, 60_degC}, {36, 60_degC}});
    CHECK(total(creditedRuns(log, at55, hours(36))) == hours(36));
    CHECK(creditedRuns(log, at55, Seconds{36 * 3'600 - 1}).empty());
    CHECK(interpolatedRuns(log, at55, Seconds{36 * 3'600 - 1}).empty());
    CHECK(gaps(log, hours(36)).empty());
    CHECK(gaps(log, hours(35)) == IntervalSet{{Instant{0}, Instant{36 * 3'600}}});
}

TEST_CASE("the thermometer's error counts against the reading when it is applied") {
    const auto log = samples({{0, 56_degC}, {10, 55.9999_degC}, {20, 56_degC}, {30, 56_degC}});
    CHECK(total(creditedRuns(log, at55, hours(36), Allowance::ignored)) == hours(30));
    CHECK(total(creditedRuns(log, at55, hours(36), Allowance::applied)) == hours(10));
    const Limits band{40_degC, false, 56.5_degC};
    CHECK(creditedRuns(log, band, hours(36), Allowance::applied).empty());
}

TEST_CASE("no reading and one reading credit nothing") {
    CHECK(creditedRuns(samples({}), at55, hours(36)).empty());
    CHECK(creditedRuns(samples({{0, 60_degC}}), at55, hours(36)).empty());
    CHECK(interpolatedRuns(samples({}), at55, hours(36)).empty());
    CHECK(gaps(samples({}), hours(36)).empty());
}

TEST_CASE("the whole batch is hot only while every position is") {
    const auto core = creditedRuns(samples({{0, 60_degC}, {10, 60_degC}, {20, 60_degC}}), at55, hours(36));
    const auto side = creditedRuns(samples({{5, 60_degC}, {8, 60_degC}, {9, 50_degC}, {12, 60_degC}, {30, 60_degC}}),
                                   at55, hours(36));
    const auto whole = intersection(core, side);
    CHECK(total(whole) == hours(3 + 8));
    CHECK(longest(whole) == hours(8));
    CHECK(intersection(whole, {}).empty());
}
