// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/feeding_advice.h"

#include <catch2/catch.hpp>

#include "core/review/fed_status.h"
#include "core/review/rounds.h"
#include "core/review/stall_facts.h"

using namespace midden;

namespace {

Bin foamBin(double litres, double millimetres) {
    return {.name = "North",
            .volumeLitres = litres,
            .insulationMillimetres = millimetres,
            .conductivityWattsPerMetreKelvin = 0.035};
}

constexpr Instant start{1'767'225'600};  // 2026-01-01T00:00Z

Sample sampleAt(Seconds after, double celsius) {
    return {start + after, Celsius::ofTenThousandths(static_cast<std::int64_t>(celsius * 10'000))};
}

/// Fed with so many kilograms every third day and read twice a day, for so many days.
BatchRecord fedEveryThirdDay(int length, double kilograms, double core, double outside) {
    BatchRecord record;
    record.bin = foamBin(200, 50);
    record.batch.started = {start, {}};
    record.tracks.push_back({"core", false, {}});
    for (int day = 0; day < length; ++day) {
        for (const int hour : {8, 20}) {
            record.tracks.front().samples.push_back(sampleAt(days(day) + hours(hour), core));
            record.outside.push_back(sampleAt(days(day) + hours(hour), outside));
        }
        if (day % 3 == 0) {
            Addition addition;
            addition.when.at = start + days(day) + hours(9);
            addition.material = "kitchen scraps";
            addition.massKilograms = kilograms;
            record.additions.push_back(addition);
        }
    }
    return record;
}

FeedingAdvice adviceOf(const BatchRecord& record) {
    return feedingAdviceOf(record, {}, lastEntryOf(record));
}

}  // namespace

// The examples beside the rule. Ours, from published parts; the bands there were taken from 200,000 random draws, with
// surfaces a few per cent larger than those of a cube.
TEST_CASE("feeding advice: examples of bins that are to hold 55 °C") {
    struct Example {
        Bin bin;
        double target, outside;
        WeeklyBand told;
    };
    for (const Example& example :
         {Example{foamBin(200, 50), 55, 10, {11, 14, 21}}, Example{foamBin(200, 50), 45, 10, {7, 9, 13}},
          Example{foamBin(400, 75), 55, 0, {15, 20, 30}}, Example{foamBin(300, 50), 55, 20, {10, 14, 20}}}) {
        const auto band = weeklyBand(example.bin, example.target, example.outside);
        REQUIRE(band);
        CAPTURE(example.bin.volumeLitres.value(), example.target, band->low, band->middle, band->high);
        CHECK(band->low == Approx(example.told.low).margin(1.5));
        CHECK(band->middle == Approx(example.told.middle).margin(1.5));
        CHECK(band->high == Approx(example.told.high).margin(1.5));
    }
}

// Ours, from the enthalpy of moist air: 10.1 % from 10 °C, 10.65 from 0, 9.35 from 20; 13.3 at 60, 17.7 at 65.
TEST_CASE("feeding advice: what each time the air needed carries away") {
    CHECK(ventShare(55, 10) == Approx(0.101).margin(0.0006));
    CHECK(ventShare(55, 0) == Approx(0.1065).margin(0.0006));
    CHECK(ventShare(55, 20) == Approx(0.0935).margin(0.0006));
    CHECK(ventShare(60, 10) == Approx(0.133).margin(0.001));
    CHECK(ventShare(65, 10) == Approx(0.177).margin(0.0006));
}

TEST_CASE("feeding advice: says what it lacks") {
    BatchRecord record = fedEveryThirdDay(30, 5, 50, 10);
    record.bin = {.name = "North"};
    record.outside.clear();
    const FeedingAdvice advice = adviceOf(record);
    CHECK_FALSE(advice.week);
    CHECK(advice.lacking == std::vector{AdviceLacking::volume, AdviceLacking::insulation, AdviceLacking::outside});
}

TEST_CASE("feeding advice: air that takes all the heat leaves no band") {
    CHECK_FALSE(weeklyBand(foamBin(200, 50), 75, 10));
}

TEST_CASE("feeding advice: what was fed lately is told by the week") {
    CHECK(adviceOf(fedEveryThirdDay(60, 6, 40, 10)).fedAWeek == Approx(14.25).margin(1));
    // A batch that began this week is not told as a quarter of what it was fed.
    CHECK(adviceOf(fedEveryThirdDay(4, 6, 40, 10)).fedAWeek == Approx(12));
}

TEST_CASE("feeding advice: a bin's own past narrows the band") {
    // 14 kg a week hold it 40 K above the air: 45 K would take 15.75.
    const FeedingAdvice advice = adviceOf(fedEveryThirdDay(60, 6, 50, 10));
    REQUIRE(advice.week);
    CHECK(advice.own == OwnResponse::narrows);
    CHECK(advice.week->middle == Approx(15.75).margin(0.2));
    CHECK(advice.week->high - advice.week->low < 0.5);
}

TEST_CASE("feeding advice: a past that does not fit the walls leaves the band as it is") {
    // So little for so much heat: it is not the food alone that warms it.
    const FeedingAdvice advice = adviceOf(fedEveryThirdDay(60, 0.5, 55, 10));
    REQUIRE(advice.week);
    CHECK(advice.own == OwnResponse::disagrees);
    CHECK(advice.week->low == Approx(weeklyBand(foamBin(200, 50), 55, 10)->low));
}

TEST_CASE("feeding advice: few feeds, or a cold bin, tell nothing of their own") {
    CHECK(adviceOf(fedEveryThirdDay(20, 6, 50, 10)).own == OwnResponse::tooFewFeeds);
    CHECK(adviceOf(fedEveryThirdDay(60, 6, 12, 10)).own == OwnResponse::tooFewFeeds);
}

namespace {

StandingLayer layer(double litres, int day, Seconds atLeast, Seconds longest, bool raw = true) {
    return {.fedFrom = start + days(day),
            .fedTo = start + days(day),
            .raw = raw,
            .litres = litres,
            .atLeast = atLeast,
            .longestRun = longest};
}

}  // namespace

TEST_CASE("fed status: what lies at the base and had its hold is ready to take") {
    const BatchRecord record = fedEveryThirdDay(10, 6, 60, 10);
    FedReckoning reckoning;
    reckoning.layers = {layer(10, 0, {}, {}, false), layer(20, 1, hours(96), hours(80)),
                        layer(20, 2, hours(120), hours(72)), layer(15, 3, hours(100), hours(71)),
                        layer(15, 4, hours(100), hours(90))};
    const FedStatus status = fedStatusOf(record, {}, reckoning, {});
    REQUIRE(status.ready);
    CHECK(status.ready->litres == Approx(50));
    CHECK(status.ready->atLeast == hours(96));
    CHECK(status.ready->fedFrom == start);
    CHECK(status.ready->fedTo == start + days(2));
    REQUIRE(status.oldest);
    CHECK(status.oldest->litres == Approx(20));
    CHECK(status.oldest->fedFrom == start + days(1));
}

TEST_CASE("fed status: finished compost alone is not ready, and nothing is not") {
    FedReckoning reckoning;
    CHECK_FALSE(fedStatusOf(fedEveryThirdDay(10, 6, 60, 10), {}, reckoning, {}).ready);
    reckoning.layers = {layer(10, 0, {}, {}, false), layer(20, 1, hours(20), hours(20))};
    const FedStatus status = fedStatusOf(fedEveryThirdDay(10, 6, 60, 10), {}, reckoning, {});
    CHECK_FALSE(status.ready);
    CHECK(status.oldest->atLeast == hours(20));
}

TEST_CASE("fed status: hot days, the hottest place, the last feed and the next") {
    BatchRecord record = fedEveryThirdDay(40, 6, 40, 10);
    for (Sample& sample : record.tracks.front().samples) {
        const Seconds age = sample.at - start;
        if (age >= days(20) && age < days(25)) {
            sample = sampleAt(age, 60);
        }
    }
    record.tracks.push_back({"side", false, {sampleAt(days(39) + hours(20) + minutes(2), 43)}});
    const FedStatus status = fedStatusOf(record, {}, {}, {});
    CHECK(status.hotDays == 5);
    REQUIRE(status.hottest);
    CHECK(status.hottest->position == "side");
    CHECK(status.lastFed == start + days(39) + hours(9));
    CHECK(status.feedDue == start + days(42) + hours(9));
    // However a day's reading wanders about an hour, it is one a day.
    BatchRecord jittery = fedEveryThirdDay(40, 6, 40, 10);
    auto& samples = jittery.tracks.front().samples;
    samples.clear();
    for (int day = 0; day < 40; ++day) {
        samples.push_back(sampleAt(days(day) + hours(9) + minutes(day % 3 == 0 ? -20 : 15), 60));
    }
    CHECK(fedStatusOf(jittery, {}, {}, {}).hotDays == 30);
    // 55 read with an error of one degree is not known to be 55.
    record.tracks = {{"core", false, {{start + days(39), Celsius::ofTenThousandths(550'000), unknownAccuracy}}}};
    CHECK(fedStatusOf(record, {}, {}, {}).hotDays == 0);
}

TEST_CASE("fed status: the latest level counts, in whatever order they were written down") {
    FedRecord fed;
    fed.levels = {{start + days(5), 40}, {start + days(9), 38}, {start + days(2), 30}};
    CHECK(fedStatusOf(fedEveryThirdDay(10, 6, 60, 10), fed, {}, {}).level == Level{start + days(9), 38});
}

TEST_CASE("fed status: three feeds tell no rhythm") {
    CHECK_FALSE(fedStatusOf(fedEveryThirdDay(9, 6, 40, 10), {}, {}, {}).feedDue);
    CHECK(fedStatusOf(fedEveryThirdDay(10, 6, 40, 10), {}, {}, {}).feedDue);
}

TEST_CASE("fed stalls: how it was fed is held against what it should need") {
    BatchRecord record = fedEveryThirdDay(60, 3, 30, 10);
    record.batch.fed = true;
    const Stall stall{.kind = StallKind::earlyCooling, .from = start + days(50)};
    const Instant end = start + days(59);
    const auto number = [&](const char* name) {
        const Facts facts = factsOf(record, stall, end, {}, builtInMaterials());
        const auto found = facts.find(name);
        return found == facts.end() ? std::optional<double>{} : std::optional{std::get<double>(found->second)};
    };
    // 7 kg a week hold it 20 K above the air, so 45 K would take 15.75; lately it was 6.75.
    REQUIRE(number("fed_percent_of_week"));
    CHECK(*number("fed_percent_of_week") == Approx(100 * 6.75 / 15.75));
    CHECK(*number("last_feed_percent_of_week") == Approx(100 * 3 / 15.75));
    record.additions.back().massKilograms = 45;
    CHECK(*number("last_feed_percent_of_week") > 200);
    // A filled batch is not fed by the week, and without its walls nothing is told.
    record.batch.fed = false;
    CHECK_FALSE(number("fed_percent_of_week"));
    record.batch.fed = true;
    record.bin.volumeLitres.reset();
    CHECK_FALSE(number("fed_percent_of_week"));
}
