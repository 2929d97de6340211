// SPDX-License-Identifier: GPL-3.0-or-later
// Every criterion that ships, way by way: reached exactly at its limits, missed by one reading, refused by a gap.
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/criteria/criteria_json.h"
#include "core/criteria/information.h"
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
        CHECK((source.known == "opened" || source.known == "quoted" || source.known == "part"));
        // Some of it was read: nothing is from memory alone.
        CHECK((source.checked.find("opened") != std::string::npos || source.checked.find("read") != std::string::npos));
        CHECK((source.known == "part") == (source.checked.find("memory") != std::string::npos));
    }
}

TEST_CASE("the French rule adds its hours up and counts turnings three days apart") {
    // Order of 8 January 2024, annex XXII, the same as annex I of the orders of 22 April 2008 and 20 April 2012: at
    // least 3 turnings at least 3 days apart, 55 °C at least for a total of 72 hours.
    const auto& all = shippedCriteria();
    const auto rule = *std::find_if(all.begin(), all.end(), [](const auto& c) { return c.id == "fr-turned"; });
    auto record = batch({{"core", false, {}}});
    const auto add = [&](double hour, double celsius) {
        samplesOf(record).emplace_back(start + Seconds{static_cast<std::int64_t>(hour * 3'600)},
                                       Celsius::ofTenThousandths(static_cast<std::int64_t>(celsius * 10'000)));
    };
    for (const double day : {0, 3, 6}) {  // a day each, cool between
        add(24 * day, 56);
        add(24 * day + 24, 56);
        add(24 * day + 25, 40);
    }
    const auto turned = [&](double hour) {
        Aeration aeration;
        aeration.when.at = start + Seconds{static_cast<std::int64_t>(hour * 3'600)};
        record.aerations.push_back(aeration);
    };
    turned(0);
    turned(72);
    turned(144);
    const auto judged = judge(rule, record);
    CHECK(judged.verdict == Verdict::shown);
    CHECK(judged.conditions.front().recorded == 3);
    CHECK(judged.conditions.front().state == ConditionState::held);
    record.aerations[1].when.at = start + Seconds{90 * 3'600};
    CHECK(judge(rule, record).conditions.front().recorded == 2);
}

TEST_CASE("beside every rule with turnings stand the days on which every position qualified") {
    auto record = batch({{"core", false, {}}, {"side", false, {}}});
    for (int day = 0; day < 20; ++day) {
        const auto at = start + days(day);
        const auto heat = [&](int cool) { return Celsius::ofTenThousandths(day % cool == 0 ? 400'000 : 570'000); };
        record.tracks[0].samples.emplace_back(at, heat(5));
        record.tracks[1].samples.emplace_back(at, heat(4));
    }
    // Days 0, 4, 5, 8, 10, 12, 15, 16 are cool at one place or the other.
    int asked = 0;
    for (const auto& judged : judgeAll(shippedCriteria(), record)) {
        const auto& steps = judged.alternatives.front().steps;
        const bool turns = judged.criterion.alternatives.front().steps.front().turnings.has_value();
        CHECK(steps.front().qualifyingDays.has_value() == turns);
        const auto limit = toCelsius(steps.front().threshold);
        if (turns && limit == Celsius::ofTenThousandths(550'000)) {
            ++asked;
            CHECK(steps.front().qualifyingDays == 12);
        }
    }
    CHECK(asked >= 7);
}

TEST_CASE("rules say where they stop: germs outside a curve and crops they are not enough for") {
    const auto noteOf = [](const std::string& id) {
        const auto& all = shippedCriteria();
        return std::find_if(all.begin(), all.end(), [&](const auto& c) { return c.id == id; })->note;
    };
    CHECK(noteOf("feachem").find("hepatitis A at short times") != std::string::npos);
    CHECK(noteOf("us503-psrp").find("enough for row crops") != std::string::npos);
    CHECK(noteOf("us503-psrp").find("where vegetables grow") != std::string::npos);
    CHECK(noteOf("us503-psrp").find("must follow each other") != std::string::npos);
    for (const char* id :
         {"us503-windrow", "us257-windrow", "nop-windrow", "us-ca-windrow", "uk-windrow", "ca-windrow"}) {
        INFO(id);
        CHECK(noteOf(id).find("Turning cools a heap") != std::string::npos);
    }
}

TEST_CASE("rules that are told say something and where from and are never judged") {
    CHECK(shippedInformation().size() >= 10);
    for (const auto& row : shippedInformation()) {
        CAPTURE(row.id);
        CHECK(row.says.size() >= 1);
        CHECK(row.scope.size() > 20);
        CHECK((row.source.known == "opened" || row.source.known == "quoted"));
        CHECK(row.source.checked.size() > 20);
        CHECK(informationOf(row.id) == &row);
        const auto& all = shippedCriteria();
        CHECK(std::none_of(all.begin(), all.end(), [&](const auto& c) { return c.id == row.id; }));
    }
    CHECK(informationOf("target") == nullptr);
    CHECK_FALSE(parseInformation(R"({"information": [{"id": "x"}]})"));
}
