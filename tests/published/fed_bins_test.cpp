// SPDX-License-Identifier: GPL-3.0-or-later
// Fed bins against cases computed independently, by another program and before this one was written. No source gives
// measured layers of a bin that is fed on top and emptied at the base, so these are computed, not published; what they
// take for granted is in core/layers/rules.h, with what is published of it.
#include <catch2/catch.hpp>
#include <numeric>

#include "core/layers/feed_need.h"
#include "core/layers/reckoning.h"

using namespace midden;
using namespace midden::literals;

namespace {

constexpr Instant dayZero{1'700'000'000};

constexpr Instant day(double number) {
    return dayZero + Seconds{static_cast<std::int64_t>(number * 86'400)};
}

/// One way of shrinking, and no slices.
LayerRules oneWay(double shrinkDays, double lasting = 0.30) {
    LayerRules rules;
    rules.shrinkDays = {shrinkDays, shrinkDays, shrinkDays};
    rules.lasting = lasting;
    rules.sliceCm = 1'000;
    return rules;
}

/// A floor of 0.25 m²: 2.5 L to a centimetre.
FedRecord bin(std::vector<FedAddition> additions, double asOfDay) {
    FedRecord record;
    record.binLitres = 250;
    record.binHeightCm = 100;
    record.threshold = 55_degC;
    record.hold = hours(24);
    record.additions = std::move(additions);
    record.asOf = day(asOfDay);
    return record;
}

FedRecord threeFeeds(double asOfDay) {
    return bin({{day(0), 40, true}, {day(7), 30, true}, {day(14), 30, true}}, asOfDay);
}

void checkB(const FedReckoning& told, double from, double to) {
    REQUIRE(told.layers.size() == 3);
    CHECK(*told.layers[1].fromCm == Approx(from).margin(0.0006));
    CHECK(*told.layers[1].toCm == Approx(to).margin(0.0006));
}

}  // namespace

TEST_CASE("case 1: the share of the volume left after some days") {
    const std::vector<std::pair<double, double>> expected{{0, 1},         {3.5, 0.887620}, {7, 0.793282},
                                                          {14, 0.647610}, {28, 0.472618},  {56, 0.342567}};
    for (const auto& [age, share] : expected) {
        CHECK(shareLeft(age, 0.30, 20) == Approx(share).margin(6e-7));
    }
    CHECK(shareLeft(28, 0.20, 10) == Approx(0.248648).margin(6e-7));
    CHECK(shareLeft(28, 0.50, 40) == Approx(0.748293).margin(6e-7));
}

TEST_CASE("case 2: where three feeds stand") {
    const auto told = reckonFed(threeFeeds(14), oneWay(20));
    REQUIRE(told.layers.size() == 3);
    CHECK(told.layers[0].litres == Approx(25.9044).margin(0.00006));
    CHECK(told.layers[1].litres == Approx(23.7984).margin(0.00006));
    CHECK(told.layers[2].litres == Approx(30).margin(0.00006));
    CHECK(*told.layers[0].toCm == Approx(10.3618).margin(0.00006));
    CHECK(*told.layers[1].toCm == Approx(19.8811).margin(0.00006));
    CHECK(*told.layers[2].toCm == Approx(31.8811).margin(0.00006));

    checkB(reckonFed(threeFeeds(28), oneWay(10, 0.20)), 3.978, 7.554);
    checkB(reckonFed(threeFeeds(28), oneWay(20)), 7.562, 14.101);
    checkB(reckonFed(threeFeeds(28), oneWay(40, 0.50)), 11.973, 21.522);
}

TEST_CASE("case 2: what a measured level of 22 cm says") {
    auto record = threeFeeds(28);
    record.levels = {{day(28), 22}};
    LayerRules rules;
    rules.sliceCm = 1'000;
    const auto told = reckonFed(record, rules);
    CHECK(told.fit[0].lasting == Approx(0.479745).margin(6e-7));
    CHECK(told.fit[0].kept);
    CHECK(told.fit[1].lasting == Approx(0.304917).margin(6e-7));
    CHECK(told.fit[1].kept);
    CHECK_FALSE(told.fit[2].kept);  // −0.090928
    CHECK(told.fit[2].lasting == Approx(0.15));
    checkB(told, 7.621, 14.199);  // of 10 and 20 days the longer
    checkB(reckonFed(record, oneWay(10)), 8.182, 14.704);
    rules.leastLasting = -1;
    CHECK(reckonFed(record, rules).fit[2].lasting == Approx(-0.090928).margin(6e-7));
}

TEST_CASE("twenty feeds in ten weeks stand higher or lower by how they shrink") {
    // Middle of the layers fed 7, 14 and 28 days ago, for 10 and 20 days; 40 days asks for too little to last.
    std::vector<FedAddition> additions;
    additions.reserve(20);
    for (int feed = 0; feed < 20; ++feed) {
        additions.push_back({day(3.5 * feed), 20, true});
    }
    auto record = bin(additions, 70);
    const auto usual = reckonFed(record, oneWay(20));
    record.levels = {{day(70), *usual.layers.back().toCm}};
    const auto middle = [&](const FedReckoning& told, std::size_t feedsAgo) {
        const auto& layer = told.layers[20 - feedsAgo];
        return (*layer.fromCm + *layer.toCm) / 2;
    };
    const auto byTen = reckonFed(record, oneWay(10));
    CHECK(middle(byTen, 2) == Approx(67.0).margin(0.06));
    CHECK(middle(byTen, 4) == Approx(57.1).margin(0.06));
    CHECK(middle(byTen, 8) == Approx(41.5).margin(0.06));
    LayerRules rules;
    rules.sliceCm = 1'000;
    const auto told = reckonFed(record, rules);
    CHECK(middle(told, 2) == Approx(66.1).margin(0.06));
    CHECK(middle(told, 4) == Approx(54.6).margin(0.06));
    CHECK(middle(told, 8) == Approx(37.0).margin(0.06));
    CHECK(told.fit[0].kept);
    CHECK(told.fit[1].kept);
    CHECK_FALSE(told.fit[2].kept);
}

TEST_CASE("case 3: what a harvest takes, and what may be in it") {
    auto record = threeFeeds(42);
    const auto before = reckonFed(record, oneWay(20));
    REQUIRE(before.layers.size() == 3);
    CHECK(before.layers[0].litres == Approx(15.4288).margin(0.00006));
    CHECK(before.layers[1].litres == Approx(12.6493).margin(0.00006));
    CHECK(before.layers[2].litres == Approx(14.1785).margin(0.00006));

    record.drawings = {{day(42), 20}};
    const auto after = reckonFed(record, oneWay(20));
    const auto& parts = after.harvests.at(0).reckoned.parts;
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].litres == Approx(15.4288).margin(0.00006));
    CHECK(parts[1].litres == Approx(4.5712).margin(0.00006));
    CHECK(parts[1].litres / before.layers[1].litres == Approx(0.361383).margin(6e-7));
    REQUIRE(after.layers.size() == 2);
    CHECK(*after.layers[0].fromCm == 0);
    CHECK(*after.layers[0].toCm == Approx(3.2312).margin(0.00006));
    CHECK(*after.layers[1].fromCm == Approx(3.2312).margin(0.00006));
    CHECK(*after.layers[1].toCm == Approx(8.9026).margin(0.00006));

    auto layers = before.layers;
    layers[0].atLeast = hours(60);
    layers[1].atLeast = hours(30);
    layers[2].atLeast = hours(20);
    const auto told = harvestOf(20, day(42), layers, {hours(24), 0}, {});
    CHECK(told.cautious.atLeast == hours(20));  // the layer fed 28 days ago is older than half of 35 days
    CHECK(told.cautious.fedTo == day(14));
    CHECK(told.reckoned.atLeast == hours(30));
}

namespace {

/// Case 4: four feeds and a thermometer at 22 cm, read every day at 57 58 61 60 54 56 62 63 58 °C.
std::vector<double> creditedHours(const LayerRules& rules) {
    auto record = bin({{day(0), 50, true}, {day(3.5), 20, true}, {day(7.5), 20, true}, {day(11.5), 20, true}}, 16);
    record.asOf = day(7.9);
    const auto then = reckonFed(record, rules);
    record.levels = {{day(7.9), *then.layers.back().toCm}};  // so that a share of 0.30 is kept
    record.asOf = day(16);
    std::vector<Sample> samples;
    for (const int degrees : {57, 58, 61, 60, 54, 56, 62, 63, 58}) {
        samples.emplace_back(day(8.0 + static_cast<double>(samples.size())),
                             Celsius::ofTenThousandths(std::int64_t{10'000} * degrees));
    }
    record.positions = {{22.0, samples}};
    std::vector<double> credited;
    for (const auto& layer : reckonFed(record, rules).layers) {
        credited.push_back(layer.atLeast.hours());
    }
    return credited;
}

}  // namespace

TEST_CASE("case 4: what a thermometer shows of the layers about it") {
    CHECK(creditedHours(oneWay(20)) == std::vector<double>{0, 0, 24, 0});
    auto wholeWithin = oneWay(20);
    wholeWithin.coolingPerCm = 1e-9;  // however little above the threshold, the reach is the farthest
    CHECK(creditedHours(wholeWithin) == std::vector<double>{0, 144, 144, 24});
    wholeWithin.farthestReachCm = 5;
    CHECK(creditedHours(wholeWithin) == std::vector<double>{0, 0, 72, 0});
}

namespace {

/// Case 5, as of day 40: L1 30 L (40 d, 72 h, at most 300), L2 20 L (21 d, 40, 200), L3 25 L (3 d, 0, 12).
StandingLayer layer(double litres, double age, std::int64_t atLeast, std::int64_t atMost) {
    StandingLayer made;
    made.fedFrom = day(40 - age);
    made.fedTo = made.fedFrom;
    made.litres = litres;
    made.looseLitres = litres;
    made.atLeast = hours(atLeast);
    made.longestRun = hours(atLeast);
    made.atMost = hours(atMost);
    return made;
}

}  // namespace

TEST_CASE("case 5: what turning leaves, and a harvest of what was turned in part") {
    const std::vector<StandingLayer> layers{layer(30, 40, 72, 300), layer(20, 21, 40, 200), layer(25, 3, 0, 12)};
    const auto all = mixedCredit(layers, day(40));
    CHECK(all.atLeast == hours(0));
    CHECK(all.atMost == hours(300));
    const auto upper = mixedCredit(std::span{layers}.subspan(1), day(40));
    CHECK(upper.atLeast == hours(0));
    CHECK(upper.atMost == hours(200));

    auto mixed = layer(45, 21, 0, 200);
    mixed.fedTo = day(37);
    const std::vector<StandingLayer> after{layers[0], mixed};
    LayerRules ageAlone;
    ageAlone.slippedVolume = 1;
    const auto thirty = harvestOf(30, day(40), after, {hours(72), 0}, ageAlone);
    CHECK(thirty.reckoned.atLeast == hours(72));
    CHECK(thirty.cautious.atLeast == hours(0));  // its oldest part, 21 days, is older than half of 40
    CHECK(thirty.cautious.atMost == hours(300));
    const auto more = harvestOf(35, day(40), after, {hours(72), 0}, {});
    CHECK(more.reckoned.atLeast == hours(0));
    CHECK(more.cautious.atLeast == hours(0));
    CHECK(more.cautious.atMost == hours(300));
}

TEST_CASE("case 6: about how much a week holds 55 °C") {
    FeedNeed need;
    need.wallWattsPerSquareMetreKelvin = 0.8;
    need.surfaceSquareMetres = 2.1;
    need.warmerBy = 45;
    CHECK(wallLossWatts(need) == Approx(37.8));
    CHECK(0.6048 * wallLossWatts(need) == Approx(22.86144));
    REQUIRE(kilogramsAWeek(need));
    CHECK(*kilogramsAWeek(need) == Approx(14.4647).margin(0.00006));
    need.airTimesNeeded = 10;  // the vent takes it all
    CHECK_FALSE(kilogramsAWeek(need));
}
