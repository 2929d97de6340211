// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/mean.h"

#include <rapidcheck.h>

#include <catch2/catch.hpp>

#include "tests/support/log.h"

using namespace midden;
using namespace midden::testing;

namespace {

/// Above 40 °C for 10 hours, on average above 45 °C.
Criterion warmOnAverage() {
    Step step;
    step.threshold = {400'000, TemperatureUnit::celsius};
    step.exceeds = true;
    step.hold = hours(10);
    step.maxGap = hours(10);
    step.mean = MeanAsked{{450'000, TemperatureUnit::celsius}, true};
    Criterion made = defaultTarget();
    made.alternatives = {{"only", {step}, {}}};
    return made;
}

Judgement judged(const Points& points, double allowance = 0) {
    return judge(warmOnAverage(), batch(points, allowance));
}

}  // namespace

TEST_CASE("an average exactly at its limit does not exceed it") {
    CHECK(judged(steady(45, 10, 5)).verdict == Verdict::notShown);
    CHECK(judged(steady(45.0001, 10, 5)).verdict == Verdict::shown);
    CHECK(judged({{0, 41}, {10, 49}}).verdict == Verdict::notShown);
    CHECK(judged({{0, 41}, {10, 49.001}}).verdict == Verdict::shown);
}

TEST_CASE("the average is weighted by time") {
    CHECK(judged({{0, 60}, {1, 41}, {10, 41}}).verdict == Verdict::notShown);
    CHECK(judged({{0, 60}, {8, 60}, {10, 41}}).verdict == Verdict::shown);
}

TEST_CASE("a part of the run that is long enough may show the average") {
    const Points points{{0, 41}, {10, 41}, {12, 50}, {22, 50}, {30, 41}, {40, 41}};
    const auto shown = judged(points);
    CHECK(shown.verdict == Verdict::shown);
    const auto& mean = shown.alternatives[0].steps[0].mean;
    REQUIRE(mean);
    CHECK(mean->celsius > 45);
    CHECK(mean->over.length() >= hours(10));
    CHECK(judged({{0, 41}, {10, 41}, {12, 50}, {14, 50}, {16, 41}, {26, 41}}).verdict == Verdict::notShown);
}

TEST_CASE("the average of the coolest position governs") {
    auto record = batch({track("core", steady(60, 10, 5)), track("side", steady(42, 10, 5))});
    const auto cold = judge(warmOnAverage(), record);
    CHECK(cold.verdict == Verdict::notShown);
    REQUIRE(cold.alternatives[0].steps[0].mean);
    CHECK(cold.alternatives[0].steps[0].mean->position == "side");
    CHECK(cold.alternatives[0].steps[0].mean->celsius == Approx(42));
    SECTION("and both must have it over the same part") {
        record = batch({track("core", {{0, 41}, {10, 41}, {11, 60}, {21, 60}}),
                        track("side", {{0, 60}, {10, 60}, {11, 41}, {21, 41}})});
        CHECK(judge(warmOnAverage(), record).verdict == Verdict::shown);  // the whole run, both near 50.5
        record = batch({track("core", {{0, 41}, {10, 41}, {11, 48}, {21, 48}}),
                        track("side", {{0, 48}, {10, 48}, {11, 41}, {21, 41}})});
        CHECK(judge(warmOnAverage(), record).verdict == Verdict::notShown);
    }
}

TEST_CASE("the thermometer's error is held against the average too") {
    CHECK(judged(steady(46, 10, 5), 1).verdict == Verdict::shownWithinError);
    CHECK(judged(steady(46.0001, 10, 5), 1).verdict == Verdict::shown);
}

TEST_CASE("a position read at other instants is joined by straight lines") {
    const auto record = batch({track("core", {{0, 41}, {10, 49.01}}), track("side", {{-1, 50}, {3, 50}, {11, 50}})});
    CHECK(judge(warmOnAverage(), record).verdict == Verdict::shown);
}

namespace {

double areaBetween(const std::vector<Sample>& samples, std::size_t from, std::size_t to) {
    double area = 0;
    for (std::size_t i = from; i < to; ++i) {
        area += (samples[i].temperature().value() + samples[i + 1].temperature().value()) / 2 *
                static_cast<double>((samples[i + 1].at - samples[i].at).count);
    }
    return area;
}

/// Every pair of readings tried, one position or two read together.
bool anyPart(const BatchRecord& record) {
    const auto& first = record.tracks.front().samples;
    for (std::size_t i = 0; i < first.size(); ++i) {
        for (std::size_t j = i + 1; j < first.size(); ++j) {
            const auto length = first[j].at - first[i].at;
            const bool warm = std::all_of(record.tracks.begin(), record.tracks.end(), [&](const Track& each) {
                return areaBetween(each.samples, i, j) / static_cast<double>(length.count) > 45 + 1e-9;
            });
            if (length >= hours(10) && warm) {
                return true;
            }
        }
    }
    return false;
}

BatchRecord anyWarmRecord() {
    BatchRecord record;
    record.tracks = {Track{"core", false, {}}, Track{"side", false, {}}};
    auto at = start;
    for (int i = *rc::gen::inRange(2, 25); i > 0; --i) {
        for (auto& each : record.tracks) {
            each.samples.emplace_back(at, celsius(*rc::gen::inRange(41, 50)));
        }
        at = at + minutes(60 * *rc::gen::inRange(1, 4));
    }
    return record;
}

}  // namespace

TEST_CASE("the search for a part finds one exactly when trying all pairs does", "[random]") {
    CHECK(rc::check([] {
        const auto record = anyWarmRecord();
        const bool found = judge(warmOnAverage(), record).verdict == Verdict::shown;
        RC_ASSERT(found == anyPart(record));
    }));
}

TEST_CASE("a year of minutes with an average just missed is no special case") {
    auto criterion = warmOnAverage();
    criterion.alternatives[0].steps[0].hold = days(14);
    Track core{"core", false, {}};
    Track side{"side", false, {}};
    for (int minute = 0; minute < 525'600; ++minute) {
        core.samples.emplace_back(start + minutes(minute), celsius(44 + minute % 3));
        side.samples.emplace_back(start + minutes(minute), celsius(45.9 - minute % 3));
    }
    CHECK(judge(criterion, batch({core, side})).verdict == Verdict::notShown);
}
