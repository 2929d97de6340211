// SPDX-License-Identifier: GPL-3.0-or-later
#include <rapidcheck.h>

#include <catch2/catch.hpp>

#include "core/criteria/judgement.h"
#include "tests/support/log.h"

using namespace midden;
using namespace midden::testing;

namespace {

std::vector<Evidence> evidence(const BatchRecord& record) {
    return judge(defaultTarget(), record).evidence;
}

/// "0-24 core 54.5 °C, below 55 °C", a plus before what is credited; hours since the start.
std::vector<std::string> lines(const std::vector<Evidence>& evidence) {
    std::vector<std::string> told;
    for (const auto& one : evidence) {
        const auto hour = [](Instant at) { return std::to_string((at - start).count / 3'600); };
        told.push_back((one.credited ? "+" : "") + hour(one.interval.from) + "-" + hour(one.interval.to) + " " +
                       one.reason);
    }
    return told;
}

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("evidence names the gap the reading below and the time credited") {
    CHECK(lines(evidence(batch({{0, 56}, {24, 54.5}, {48, 56}, {72, 57}, {113, 58}}))) ==
          Lines{"0-48 core 54.5 °C, below 55 °C", "+48-72 core at or above 55 °C",
                "72-113 41 h between readings, more than 36 h"});
}

TEST_CASE("stretches below merge and name the lowest reading") {
    CHECK(lines(evidence(batch({{0, 20}, {24, 35}, {48, 18.25}, {72, 54}, {96, 60}, {120, 60}}))) ==
          Lines{"0-96 core 18.3 °C, below 55 °C", "+96-120 core at or above 55 °C"});
}

TEST_CASE("several long gaps in a row are told as one") {
    CHECK(lines(evidence(batch({{0, 60}, {40, 60}, {90, 60}, {140, 60}}))) ==
          Lines{"0-140 40 h to 50 h between readings, more than 36 h"});
}

TEST_CASE("of two positions below the one that stays below longest is named and then the coolest") {
    const auto record = batch({track("core", {{0, 50}, {24, 56}, {48, 56}, {72, 56}}),
                               track("side", {{0, 40}, {24, 54.5}, {48, 56}, {72, 56}})});
    CHECK(lines(evidence(record)) == Lines{"0-48 side 40 °C, below 55 °C", "+48-72 every position at or above 55 °C"});
    const auto level = batch({track("core", {{0, 50}, {24, 50}}), track("side", {{0, 40}, {24, 40}})});
    CHECK(evidence(level).at(0).position == "side");
}

TEST_CASE("a position that starts late or stops early is named") {
    const auto record = batch({track("core", steady(60, 96)), track("side", {{24, 60}, {48, 60}})});
    CHECK(lines(evidence(record)) ==
          Lines{"0-24 side not read yet", "+24-48 every position at or above 55 °C", "48-96 side not read any more"});
}

TEST_CASE("after raw material each position counts from its own first reading") {
    auto record = batch({track("core", steady(60, 96)), track("side", {{1, 60}, {73, 60}, {96, 60}})});
    record.additions = {addition(30, "scraps", true)};
    CHECK(lines(evidence(record)) == Lines{"0-48 raw material added 2 May: scraps", "48-73 side not read yet",
                                           "+73-96 every position at or above 55 °C"});
}

TEST_CASE("a reading a hair below its limit is not rounded up to it") {
    CHECK(lines(evidence(batch({{0, 54.9999}, {24, 60}}))) == Lines{"0-24 core 54.9999 °C, below 55 °C"});
    CHECK(lines(evidence(batch({{0, 54.98}, {24, 60}}))) == Lines{"0-24 core 54.98 °C, below 55 °C"});
}

TEST_CASE("a year of minutes below is one line") {
    Track minutely{"core", false, {}};
    for (int minute = 0; minute < 525'600; ++minute) {
        minutely.samples.emplace_back(start + minutes(minute), celsius(20 + minute % 30));
    }
    CHECK(evidence(batch({minutely})).size() == 1);
}

namespace {

/// Up to three positions, each with its own readings around the threshold and some long gaps.
BatchRecord anyRecord() {
    BatchRecord record;
    const auto positions = *rc::gen::inRange(1, 4);
    for (int p = 0; p < positions; ++p) {
        Track made{std::string(1, static_cast<char>('a' + p)), false, {}};
        auto at = start + minutes(*rc::gen::inRange(0, 3'000));
        const auto count = *rc::gen::inRange(0, 30);
        for (int i = 0; i < count; ++i) {
            made.samples.emplace_back(at, celsius(*rc::gen::inRange(50, 62)), celsius(1) - Celsius{});
            at = at + minutes(*rc::gen::inRange(1, 2'400));
        }
        record.tracks.push_back(std::move(made));
    }
    if (*rc::gen::arbitrary<bool>()) {
        record.additions = {addition(*rc::gen::inRange(0, 600), "scraps", true)};
    }
    return record;
}

Seconds creditedIn(const std::vector<Evidence>& told) {
    Seconds sum;
    for (const auto& one : told) {
        sum += one.credited ? one.interval.length() : Seconds{};
    }
    return sum;
}

bool hasNoHoles(const std::vector<Evidence>& told) {
    for (std::size_t i = 0; i < told.size(); ++i) {
        const bool empty = told[i].interval.from >= told[i].interval.to || told[i].reason.empty();
        if (empty || (i > 0 && told[i - 1].interval.to != told[i].interval.from)) {
            return false;
        }
    }
    return true;
}

std::optional<Interval> wholeOf(const BatchRecord& record) {
    std::optional<Interval> whole;
    for (const auto& each : record.tracks) {
        for (const auto& sample : each.samples) {
            whole = whole ? Interval{std::min(whole->from, sample.at), std::max(whole->to, sample.at)}
                          : Interval{sample.at, sample.at};
        }
    }
    return whole && whole->from < whole->to ? whole : std::nullopt;
}

std::optional<Interval> toldOf(const std::vector<Evidence>& told) {
    return told.empty() ? std::nullopt : std::optional{Interval{told.front().interval.from, told.back().interval.to}};
}

}  // namespace

TEST_CASE("evidence covers the batch without holes and credits exactly the credited hours", "[random]") {
    CHECK(rc::check([] {
        const auto record = anyRecord();
        const auto judged = judge(defaultTarget(), record);
        const bool right = hasNoHoles(judged.evidence) && creditedIn(judged.evidence) == judged.cumulative &&
                           toldOf(judged.evidence) == wholeOf(record);
        RC_ASSERT(right);
    }));
}
