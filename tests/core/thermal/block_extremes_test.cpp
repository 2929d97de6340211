// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/block_extremes.h"

#include <rapidcheck.h>

#include <catch2/catch.hpp>

#include "core/thermal/credit.h"

using namespace midden;
using namespace midden::literals;

namespace {

/// A logger's readings: warm for long, cool for long, now and then a scatter of both, a gap, another thermometer.
std::vector<Sample> someReadings() {
    std::vector<Sample> samples;
    Instant at{1'600'000'000};
    const int stretches = *rc::gen::inRange(0, 12);
    for (int stretch = 0; stretch < stretches; ++stretch) {
        const int length = *rc::gen::inRange(1, 200);
        const int level = *rc::gen::element(530'000, 550'000, 600'000, 650'000, 660'000);
        const int scatter = *rc::gen::element(1, 1, 40'000);
        const auto allowance = Kelvins::ofTenThousandths(*rc::gen::element(0, 5'000, 10'000));
        const auto numbers = *rc::gen::container<std::vector<int>>(static_cast<std::size_t>(length),
                                                                   rc::gen::inRange(-scatter, scatter));
        for (const int number : numbers) {
            samples.emplace_back(at, Celsius::ofTenThousandths(level + number), allowance);
            at = at + Seconds{60};
        }
        at = at + Seconds{*rc::gen::element(0, 0, 3'600, 200'000)};
    }
    return samples;
}

Limits someLimits() {
    const auto ceiling = *rc::gen::element(std::optional<Celsius>{}, std::optional{65_degC});
    return {*rc::gen::element(55_degC, 60_degC), *rc::gen::arbitrary<bool>(), ceiling};
}

void check(bool holds) {
    REQUIRE(holds);
}

}  // namespace

TEST_CASE("looking at whole blocks credits the same time as looking at each reading", "[random]") {
    check(rc::check([] {
        const auto samples = someReadings();
        const BlockExtremes blocks{samples};
        const auto limits = someLimits();
        const auto maxGap = *rc::gen::element(Seconds{59}, Seconds{60}, hours(1), hours(36));
        for (const auto allowance : {Allowance::ignored, Allowance::applied}) {
            RC_ASSERT(creditedRuns(blocks, limits, maxGap, allowance) ==
                      creditedRuns(samples, limits, maxGap, allowance));
        }
        RC_ASSERT(gaps(blocks, maxGap) == gaps(samples, maxGap));
    }));
}

TEST_CASE("looking at whole blocks joins the same lines as looking at each reading", "[random]") {
    check(rc::check([] {
        const auto samples = someReadings();
        const auto limits = someLimits();
        const auto byBlock = interpolatedRuns(BlockExtremes{samples}, limits, hours(36));
        const auto byReading = interpolatedRuns(samples, limits, hours(36));
        RC_ASSERT(byBlock.size() == byReading.size());
        for (std::size_t i = 0; i < byBlock.size(); ++i) {
            RC_ASSERT(byBlock[i].from == byReading[i].from);
            RC_ASSERT(byBlock[i].to == byReading[i].to);
        }
    }));
}

TEST_CASE("the extremes of some readings are those found by looking at each of them", "[random]") {
    check(rc::check([] {
        const auto samples = someReadings();
        RC_PRE(!samples.empty());
        const auto size = static_cast<int>(samples.size());
        const auto first = static_cast<std::size_t>(*rc::gen::inRange(0, size));
        const auto count = static_cast<std::size_t>(*rc::gen::inRange(1, size - static_cast<int>(first) + 1));
        const auto extremes = BlockExtremes{samples}.extremesOf(first, count);
        const auto some = std::span{samples}.subspan(first, count);
        const auto [coolest, hottest] = std::minmax_element(
            some.begin(), some.end(), [](const auto& a, const auto& b) { return a.temperature() < b.temperature(); });
        RC_ASSERT(extremes.lowest == coolest->temperature());
        RC_ASSERT(extremes.highest == hottest->temperature());
        Seconds longest;
        Kelvins most;
        for (std::size_t i = 0; i < some.size(); ++i) {
            longest = i == 0 ? longest : std::max(longest, some[i].at - some[i - 1].at);
            most = std::max(most, some[i].allowance());
        }
        RC_ASSERT(extremes.longestGap == longest);
        RC_ASSERT(extremes.mostAllowance == most);
    }));
}
