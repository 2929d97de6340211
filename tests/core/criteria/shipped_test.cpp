// SPDX-License-Identifier: GPL-3.0-or-later
// Every criterion that ships, way by way: reached exactly at its limits, missed by one reading, refused by a gap.
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/criteria/criteria_json.h"
#include "core/criteria/judgement.h"
#include "tests/support/log.h"

using namespace midden;
using namespace midden::testing;

namespace {

constexpr Kelvins aHair = Kelvins::ofParts(1);

/// The coolest temperature that qualifies for all steps and their averages.
Celsius coolest(const Alternative& alternative) {
    auto level = Celsius::ofTenThousandths(-600'000);
    for (const auto& step : alternative.steps) {
        level = std::max(level, toCelsius(step.threshold) + (step.exceeds ? aHair : Kelvins{}));
        if (step.mean) {
            level = std::max(level, toCelsius(step.mean->threshold) + (step.mean->exceeds ? aHair : Kelvins{}));
        }
    }
    return level;
}

Seconds shortestGap(const Alternative& alternative) {
    auto gap = maxGapFor(alternative.steps.front());
    for (const auto& step : alternative.steps) {
        gap = std::min(gap, maxGapFor(step));
    }
    return gap;
}

/// Readings at the coolest qualifying temperature, as far apart as allowed, for exactly the longest hold asked.
BatchRecord atTheLimit(const Alternative& alternative) {
    const auto& step = alternative.steps.front();
    const auto end = start + step.hold + Seconds{step.holdExceeds ? 1 : 0};
    Track core{"core", false, {}};
    for (auto at = start; at < end; at = at + shortestGap(alternative)) {
        core.samples.emplace_back(at, coolest(alternative));
    }
    core.samples.emplace_back(end, coolest(alternative));
    return batch({core});
}

/// Each way of every criterion by itself, named.
std::vector<Criterion> everyWay() {
    std::vector<Criterion> ways;
    for (const auto& criterion : shippedCriteria()) {
        for (const auto& alternative : criterion.alternatives) {
            ways.push_back(criterion);
            ways.back().alternatives = {alternative};
            ways.back().title += ", " + alternative.title;
        }
    }
    return ways;
}

Verdict verdict(const Criterion& way, const BatchRecord& record) {
    return judge(way, record).verdict;
}

std::vector<Sample>& samplesOf(BatchRecord& record) {
    return record.tracks.front().samples;
}

}  // namespace

TEST_CASE("every way of every criterion is shown exactly at its limits") {
    for (const auto& way : everyWay()) {
        CAPTURE(way.title);
        CHECK(verdict(way, atTheLimit(way.alternatives.front())) == Verdict::shown);
    }
}

TEST_CASE("every way of every criterion is missed by one reading a hair too cool") {
    for (const auto& way : everyWay()) {
        CAPTURE(way.title);
        auto record = atTheLimit(way.alternatives.front());
        auto& middle = samplesOf(record)[samplesOf(record).size() / 2];
        const auto& step = way.alternatives.front().steps.front();
        middle = Sample{middle.at, toCelsius(step.threshold) - (step.exceeds ? Kelvins{} : aHair)};
        CHECK(verdict(way, record) == Verdict::notShown);
    }
}

TEST_CASE("every way of every criterion is missed by a second too few") {
    for (const auto& way : everyWay()) {
        CAPTURE(way.title);
        auto record = atTheLimit(way.alternatives.front());
        auto& last = samplesOf(record).back();
        last = Sample{last.at - Seconds{1}, last.temperature()};
        CHECK(verdict(way, record) == Verdict::notShown);
    }
}

TEST_CASE("every way of every criterion is refused by a gap a second too long") {
    for (const auto& way : everyWay()) {
        CAPTURE(way.title);
        auto record = atTheLimit(way.alternatives.front());
        auto& samples = samplesOf(record);
        const auto gap = maxGapFor(way.alternatives.front().steps.front());
        const auto from = samples.front().at;
        std::erase_if(samples, [&](const Sample& each) { return each.at > from && each.at <= from + gap; });
        samples.insert(samples.begin() + 1, Sample{from + gap + Seconds{1}, samples.front().temperature()});
        CHECK(verdict(way, record) == Verdict::notShown);
    }
}

TEST_CASE("every band is left by one reading a hair too hot") {
    std::vector<std::string> bands;
    for (const auto& way : everyWay()) {
        const auto& ceiling = way.alternatives.front().steps.front().ceiling;
        if (!ceiling) {
            continue;
        }
        bands.push_back(way.id);
        auto at = atTheLimit(way.alternatives.front());
        samplesOf(at)[1] = Sample{samplesOf(at)[1].at, toCelsius(*ceiling)};
        auto over = at;
        samplesOf(over)[1] = Sample{samplesOf(at)[1].at, toCelsius(*ceiling) + aHair};
        const bool right = verdict(way, at) == Verdict::shown && verdict(way, over) == Verdict::notShown;
        CHECK(right);
    }
    CHECK(bands == std::vector<std::string>{"nop-vessel", "nop-windrow"});
}

TEST_CASE("every criterion says where it is from how it was checked and for whom it is") {
    for (const auto& criterion : shippedCriteria()) {
        CAPTURE(criterion.id);
        const auto& source = criterion.source;
        const bool said = !source.section.empty() && source.checked.size() > 10 && criterion.scope.size() > 20;
        const bool owned = !source.fromMemory || source.checked.find("memory") != std::string::npos;
        CHECK((said && owned));
    }
}
