// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/season.h"

#include <catch2/catch.hpp>

#include "core/criteria/criterion.h"
#include "core/review/review.h"
#include "tests/core/review/made_record.h"

using namespace midden;
using namespace midden::testing;

namespace {

BatchReview reviewed(const BatchRecord& record) {
    ReviewQuestions questions;
    questions.criteria = {defaultTarget()};
    return reviewOf(record, questions);
}

SeasonBatch seasonOf(const BatchRecord& record) {
    return seasonBatchOf(record, reviewed(record));
}

void put(BatchRecord& record, const char* material, double kilograms) {
    Addition addition;
    addition.when.at = start;
    addition.material = material;
    addition.massKilograms = kilograms;
    record.additions.push_back(addition);
}

void screen(BatchRecord& record, double hour, const char* value) {
    Observation observation;
    observation.when.at = atHour(hour);
    observation.kind = ObservationKind::screening;
    observation.value = value;
    record.observations.push_back(observation);
}

SeasonBatch inBin(const char* bin, Verdict verdict, double material) {
    SeasonBatch batch;
    batch.bin = bin;
    batch.target = verdict;
    batch.materialKilograms = material;
    return batch;
}

}  // namespace

TEST_CASE("a batch that held its heat is shown in the season with its runs and its hottest reading") {
    const auto batch = seasonOf(coreRecord(daily({20, 58, 63, 64, 61, 58, 50})));
    CHECK(batch.target == Verdict::shown);
    REQUIRE(batch.windows.size() == 1);
    CHECK(batch.windows.front() == Interval{atHour(24), atHour(5 * 24)});
    CHECK(batch.longestRun == days(4));
    REQUIRE(batch.peak);
    CHECK(batch.peak->temperature == degrees(64));
    CHECK(batch.stalls == 0);
}

TEST_CASE("a batch that went cold too early is not shown and its stall is counted") {
    const auto batch = seasonOf(coreRecord(daily({20, 58, 60, 44, 38, 33, 30})));
    CHECK(batch.target == Verdict::notShown);
    CHECK(batch.longestRun == days(1));
    CHECK(batch.stalls == 1);
}

TEST_CASE("the hold of the season is the one its target is judged by") {
    auto record = coreRecord(daily({58, 60, 60, 60, 60, 60}));
    CHECK(seasonOf(record).longestRun == days(5));
    add(record, 73);
    const auto anew = seasonOf(record);
    CHECK(anew.target == Verdict::notShown);
    CHECK(anew.longestRun == days(1));
    // 55.5 °C reaches 55 °C as read, but not with an error of 1 °C held against it.
    const auto asRead = seasonOf(coreRecord(daily({55.5, 60, 60, 55.5})));
    CHECK(asRead.target == Verdict::shownWithinError);
    CHECK(asRead.longestRun == days(3));
}

TEST_CASE("a batch stood from its start to its finish or to its last entry while it stands") {
    auto record = coreRecord(daily({20, 58, 60}));
    CHECK_FALSE(seasonOf(record).finished);
    CHECK(seasonOf(record).stood == Interval{start, atHour(48)});
    add(record, 60);
    CHECK(seasonOf(record).stood == Interval{start, atHour(60)});
    record.finished = atHour(500);
    CHECK(seasonOf(record).finished);
    CHECK(seasonOf(record).stood == Interval{start, atHour(500)});
}

TEST_CASE("what the materials call kitchen and garden counts as kept out of collection") {
    auto record = coreRecord(daily({20, 58, 60}));
    put(record, "vegetable scraps", 12);
    put(record, "grass clippings", 8);
    put(record, "wood chips", 5);
    put(record, "water", 4);
    put(record, "something nobody listed", 3);
    const auto batch = seasonOf(record);
    CHECK(batch.materialKilograms == 32);
    CHECK(batch.wasteKilograms == 20);
}

TEST_CASE("compost made is what was screened out and written down as kilograms") {
    auto record = coreRecord(daily({20, 58, 60}));
    CHECK_FALSE(seasonOf(record).compostKilograms);
    screen(record, 900, "two barrows");
    CHECK_FALSE(seasonOf(record).compostKilograms);
    screen(record, 900, "40 kg");
    screen(record, 950, "22,5kg");
    CHECK(seasonOf(record).compostKilograms == 62.5);
}

TEST_CASE("only a whole number with kg behind it is a mass") {
    CHECK(kilogramsIn("62 kg") == 62);
    CHECK(kilogramsIn("0.5kg") == 0.5);
    CHECK_FALSE(kilogramsIn("about 62 kg"));
    CHECK_FALSE(kilogramsIn("62 kg dry kg"));
    CHECK_FALSE(kilogramsIn("-3 kg"));
    CHECK_FALSE(kilogramsIn("62"));
    CHECK_FALSE(kilogramsIn("kg"));
    CHECK_FALSE(kilogramsIn("nan kg"));
    CHECK_FALSE(kilogramsIn(""));
}

TEST_CASE("bins are compared alphabetically and summed up in the last line") {
    const std::vector<SeasonBatch> batches{inBin("Shed", Verdict::notShown, 30), inBin("North", Verdict::shown, 20),
                                           inBin("North", Verdict::shownWithinError, 10)};
    const auto sums = sumsOf(batches);
    REQUIRE(sums.size() == 3);
    CHECK(sums[0].bin == "North");
    CHECK(sums[0].batches == 2);
    CHECK(sums[0].shown == 1);
    CHECK(sums[0].materialKilograms == 30);
    CHECK(sums[1].bin == "Shed");
    CHECK(sums[1].shown == 0);
    CHECK(sums[2].bin.empty());
    CHECK(sums[2].batches == 3);
    CHECK(sums[2].materialKilograms == 60);
    CHECK_FALSE(sums[2].compostKilograms);
    CHECK(sumsOf({}).empty());
}

TEST_CASE("kitchen waste is counted apart from garden waste for it tells of households") {
    auto record = coreRecord(daily({20, 58}));
    put(record, "kitchen scraps", 12);
    put(record, "carrots", 3);
    put(record, "grass", 20);
    put(record, "straw", 5);
    const auto batch = seasonOf(record);
    CHECK(batch.kitchenKilograms == 15);
    CHECK(batch.wasteKilograms == 35);
    CHECK(sumsOf(std::vector{batch, batch}).back().kitchenKilograms == 30);
}
