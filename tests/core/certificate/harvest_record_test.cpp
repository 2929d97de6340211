// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/harvest_record.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/core/layers/made_bins.h"

using namespace midden;
using namespace midden::testing;

namespace {

std::string textOf(const std::vector<Fact>& facts, const std::string& label) {
    const auto fact = std::find_if(facts.begin(), facts.end(), [&](const Fact& each) { return each.label == label; });
    REQUIRE(fact != facts.end());
    return fact->text;
}

/// 100 L fed at once and some again; the lower ones hot for four days; a harvest of 30 L.
MadeBin harvested() {
    using namespace literals;
    auto bin = emptyBin();
    bin.entries.additions = {{dayNumber(0), 100, true}, {dayNumber(8), 20, true}};
    bin.entries.levels = {{dayNumber(1), 38}, {dayNumber(9), 36}};
    bin.heightsCm = {10, 25, std::nullopt};
    bin.samples.resize(3);
    for (int day = 2; day <= 6; ++day) {
        for (auto& samples : bin.samples) {
            samples.emplace_back(dayNumber(day), 66_degC, 1_K);
        }
    }
    bin.entries.drawings = {{dayNumber(10), 30}};
    bin.entries.asOf = dayNumber(11);
    return bin;
}

HarvestInput inputOf(const MadeBin& bin, const HarvestReckoning& harvest) {
    return {"Kitchen",
            "North",
            "Long Lane",
            harvest,
            bin.entries.threshold,
            bin.entries.hold,
            {{"base", 10}, {"core", 25}, {"side", {}}},
            bin.entries.levels};
}

}  // namespace

TEST_CASE("a harvest's record tells what was taken, as reckoned and cautiously, and that it is no verdict") {
    const auto bin = harvested();
    const auto reckoning = reckonFed(bin.record());
    REQUIRE(reckoning.harvests.size() == 1);
    const auto& harvest = reckoning.harvests.front();
    const auto record = harvestRecordOf(inputOf(bin, harvest), {"20260301-AAAA-BBBB", {dayNumber(12), {}}, "", "abc"});
    CHECK(record.title == "Harvest record");
    CHECK(record.batch == "Kitchen");
    CHECK(record.findings.empty());
    CHECK(record.stance.find("No published rule is judged by it") != std::string::npos);
    CHECK(textOf(record.batchFacts, "Taken out") == "30 L on 25 November 00:00");
    CHECK(textOf(record.batchFacts, "Threshold") == "55 °C or more");
    REQUIRE(harvest.reckoned.halfHad == hours(96));
    CHECK(textOf(record.batchFacts, "Half of it had") == "at least 96 h");
    CHECK(textOf(record.batchFacts, "The whole hold").find("of it had 72 h in one run") != std::string::npos);
    CHECK(record.materials.label == "Cautiously");
    CHECK(record.materials.text.find("If younger material slipped down, what was fed from 15 November 2023") == 0);
    CHECK(textOf(record.course, "Thermometers") ==
          "above the floor: base 10 cm, core 25 cm and side at a height not known, which counts nowhere");
    CHECK(textOf(record.course, "Levels").find("2 levels measured; the last before it 36 cm above the floor on ") == 0);
    CHECK(record.creditRule.find("at the wall it is cooler") != std::string::npos);
    CHECK(record.cautions == cautionsOnPaper());
    CHECK(record.digest == "abc");
    CHECK(record.number == "20260301-AAAA-BBBB");
    CHECK(record.kind == "Record");
}

TEST_CASE("a harvest of more than was there says so") {
    auto bin = harvested();
    bin.entries.drawings.front().litres = 300;
    const auto reckoning = reckonFed(bin.record());
    const auto record = harvestRecordOf(inputOf(bin, reckoning.harvests.front()), {});
    CHECK(textOf(record.batchFacts, "Taken out").find("; 300 L were written down, more than was there") !=
          std::string::npos);
    CHECK(record.number.empty());
    CHECK(record.issued.empty());
}

TEST_CASE("hours of a harvest are rounded so that neither side claims more") {
    const auto bin = harvested();
    auto harvest = reckonFed(bin.record()).harvests.front();
    harvest.reckoned.atLeast = hours(20) + Seconds{3'599};
    harvest.cautious.atMost = hours(300) + Seconds{1};
    const auto record = harvestRecordOf(inputOf(bin, harvest), {});
    CHECK(textOf(record.batchFacts, "All of it had") == "at least 20 h");
    CHECK(record.materials.text.find("at most 301 h.") != std::string::npos);
}

TEST_CASE("nothing raw in a harvest needs no hours") {
    auto bin = harvested();
    for (auto& addition : bin.entries.additions) {
        addition.raw = false;
    }
    bin.entries.levels.clear();
    const auto reckoning = reckonFed(bin.record());
    const auto record = harvestRecordOf(inputOf(bin, reckoning.harvests.front()), {});
    CHECK(textOf(record.batchFacts, "All of it had") == "nothing raw in it");
    CHECK(textOf(record.course, "Levels") == "none was measured, so no hours are told");
}
