// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/reckoning.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/layers/coverage.h"
#include "tests/core/layers/made_bins.h"

using namespace midden;
using namespace midden::literals;
using namespace midden::testing;

namespace {

struct Point {
    double day = 0;
    double celsius = 0;
};

void read(MadeBin& bin, double heightCm, const std::vector<Point>& points) {
    bin.heightsCm.push_back(heightCm);
    bin.samples.emplace_back();
    for (const auto& point : points) {
        bin.samples.back().emplace_back(dayNumber(point.day),
                                        Celsius::ofTenThousandths(std::llround(point.celsius * 10'000)),
                                        Kelvins::ofTenThousandths(10'000));
    }
}

/// Read each day from one to another, at one temperature.
std::vector<Point> daily(double from, double to, double celsius) {
    std::vector<Point> points;
    for (int later = 0; from + later <= to; ++later) {
        points.push_back({from + later, celsius});
    }
    return points;
}

/// Fed 25 L on day 0, which lie 10 cm high in two slices. On day 10 they stand 7 cm high, as 20 days would have it with
/// a share of a quarter.
MadeBin onceFed() {
    auto bin = emptyBin();
    bin.entries.additions = {{dayNumber(0), 25, true}};
    bin.entries.levels = {{dayNumber(10), 7.0}};
    bin.entries.asOf = dayNumber(20);
    return bin;
}

FedReckoning reckoned(const MadeBin& bin) {
    return reckonFed(bin.record());
}

bool lacks(const FedReckoning& told, Lacking what) {
    return std::find(told.lacking.begin(), told.lacking.end(), what) != told.lacking.end();
}

}  // namespace

TEST_CASE("additions within twelve hours of the first are one feed, at the time of the last") {
    const auto feeds = feedsOf({{dayNumber(1), 3, false},
                                {dayNumber(0.5), 2, true},
                                {dayNumber(0), 1, false},
                                {dayNumber(0.25), 0, true},
                                {dayNumber(1) + Seconds{1}, 4, false}},
                               {});
    REQUIRE(feeds.size() == 2);
    CHECK(feeds[0].at == dayNumber(0.5));
    CHECK(feeds[0].litres == 3);
    CHECK(feeds[0].raw);
    CHECK(feeds[1].at == dayNumber(1) + Seconds{1});
    CHECK(feeds[1].litres == 7);
    CHECK_FALSE(feeds[1].raw);
}

TEST_CASE("the litres of an addition are measured, else reckoned from its material, else assumed") {
    Addition addition;
    addition.massKilograms = 4;
    CHECK(looseLitres(addition, {}).litres == Approx(10));
    CHECK(looseLitres(addition, {}).from == LitresFrom::assumed);
    CHECK(looseLitres(addition, 200).litres == Approx(20));
    CHECK(looseLitres(addition, 200).from == LitresFrom::density);
    addition.volumeLitres = 12;
    CHECK(looseLitres(addition, 200).litres == 12);
    CHECK(looseLitres(addition, 200).from == LitresFrom::volume);
}

TEST_CASE("a feed is cut into the fewest slices that are no thicker than five centimetres") {
    CHECK(slicesOf({dayNumber(0), 12.5, true}, 2.5, {}) == 1);
    CHECK(slicesOf({dayNumber(0), 12.6, true}, 2.5, {}) == 2);
    CHECK(slicesOf({dayNumber(0), 12.6, true}, {}, {}) == 1);
    CHECK(slicesOf({dayNumber(0), 1e12, true}, 2.5, {}) == LayerRules{}.mostSlices);
}

TEST_CASE("a harvest goes by the middle of the ways of shrinking that are kept") {
    const auto middle = [](std::uint8_t kept) { return middleKept({dayNumber(0), {}, kept}); };
    CHECK(middle(0b000) == 1);
    CHECK(middle(0b111) == 1);
    CHECK(middle(0b011) == 1);
    CHECK(middle(0b101) == 2);
    CHECK(middle(0b110) == 2);
    CHECK(middle(0b001) == 0);
    CHECK(middle(0b010) == 1);
    CHECK(middle(0b100) == 2);
}

TEST_CASE("a hot thermometer in the middle credits what lies wholly within its reach") {
    auto bin = onceFed();
    read(bin, 3.0, daily(11, 15, 66));  // 10 °C to spare
    const auto told = reckoned(bin);
    REQUIRE(told.layers.size() == 2);
    CHECK(told.layers[0].atLeast == hours(96));
    CHECK(told.layers[1].atLeast == hours(96));
    CHECK(told.layers[0].atMost == days(20));

    SECTION("and less when there is less to spare") {
        bin.samples.clear();
        bin.heightsCm.clear();
        read(bin, 1.5, daily(11, 15, 58.5));  // 2.5 °C: from the floor to 4 cm; the lower slice is 3.5 cm at the most
        const auto near = reckoned(bin);
        CHECK(near.layers[0].atLeast == hours(96));
        CHECK(near.layers[1].atLeast == hours(0));
    }
    SECTION("or nothing at all where only the reading itself is hot enough") {
        bin.samples.clear();
        bin.heightsCm.clear();
        read(bin, 3.0, daily(11, 15, 56));
        CHECK(reckoned(bin).layers[0].atLeast == hours(0));
    }
    SECTION("and nothing while the level is unknown or too old") {
        bin.entries.levels.clear();
        CHECK(reckoned(bin).layers[0].atLeast == hours(0));
        CHECK(lacks(reckoned(bin), Lacking::anyLevel));
        bin.entries.levels = {{dayNumber(10), 7.0}};
        bin.samples.clear();
        bin.heightsCm.clear();
        read(bin, 3.0, daily(22, 26, 66));
        bin.entries.asOf = dayNumber(26);
        CHECK(reckoned(bin).layers[0].atLeast == hours(48));  // up to day 24
        CHECK(lacks(reckoned(bin), Lacking::recentLevel));
    }
    SECTION("and nothing when level and feeds disagree") {
        bin.entries.levels = {{dayNumber(10), 9.9}};
        CHECK(reckoned(bin).layers[0].atLeast == hours(0));
        CHECK(lacks(reckoned(bin), Lacking::agreement));
    }
    SECTION("and nothing across a gap, a turning or a harvest") {
        bin.samples[0].erase(bin.samples[0].begin() + 1);
        CHECK(reckoned(bin).layers[0].atLeast == hours(48));
        bin.entries.mixings = {{dayNumber(13.5), true, 1.0}};
        CHECK(reckoned(bin).layers[0].atLeast == hours(24));
        bin.entries.drawings = {{dayNumber(14.5), 1}};
        CHECK(reckoned(bin).layers[0].atLeast == hours(0));
    }
}

TEST_CASE("two hot thermometers credit what lies between them, where neither reaches alone") {
    auto bin = onceFed();
    read(bin, 0, daily(11, 15, 56));
    read(bin, 10, daily(11.5, 15.5, 57));
    CHECK(reckoned(bin).layers[0].atLeast == hours(84));
    CHECK(reckoned(bin).layers[1].atLeast == hours(84));
    CHECK(reckoned(bin).layers[1].longestRun == hours(84));
    bin.heightsCm[1] = 20.0;
    CHECK(reckoned(bin).layers[0].atLeast == hours(84));
    bin.heightsCm[1] = 20.1;
    CHECK(reckoned(bin).layers[0].atLeast == hours(0));
    bin.heightsCm[1] = 0.0;
    CHECK(reckoned(bin).layers[0].atLeast == hours(0));
}

TEST_CASE("what comes after a reading at the same instant, does: feeds, levels, turnings") {
    auto bin = onceFed();
    read(bin, 3.0, daily(11, 15, 66));
    SECTION("a turning at a reading ends no interval before it, but the one after") {
        bin.entries.mixings = {{dayNumber(13), false, {}}};
        CHECK(reckoned(bin).layers[0].atLeast == hours(72));
    }
    SECTION("a feed at a reading is there from the next one on") {
        bin.entries.additions.push_back({dayNumber(13), 1, true});
        CHECK(reckoned(bin).layers[2].atLeast == hours(24));
    }
    SECTION("a level at a reading counts from the next one on") {
        bin.entries.levels = {{dayNumber(11), 6.8}};
        CHECK(reckoned(bin).layers[0].atLeast == hours(72));
    }
}

TEST_CASE("cold readings within reach are taken off the most a layer can have had") {
    auto bin = onceFed();
    read(bin, 3.0, daily(11, 15, 40));
    const auto told = reckoned(bin);
    CHECK(told.layers[0].atLeast == hours(0));
    CHECK(told.layers[0].atMost == days(16));
    bin.samples[0][2] = Sample{dayNumber(13), 54_degC, 1_K};  // 55 °C may have been
    CHECK(reckoned(bin).layers[0].atMost == days(18));
}

TEST_CASE("turning leaves the least of its layers, and counts on from there without joining runs") {
    auto bin = onceFed();
    read(bin, 3.0, daily(11, 13, 66));  // 48 h
    bin.entries.additions.push_back({dayNumber(13.5), 2.5, true});
    bin.entries.mixings = {{dayNumber(14), false, {}}};
    bin.entries.levels.push_back({dayNumber(14), 7.2});
    bin.entries.asOf = dayNumber(14);
    const auto turned = reckoned(bin);
    REQUIRE(turned.layers.size() == 1);
    CHECK(turned.layers[0].atLeast == hours(0));
    CHECK(turned.layers[0].atMost == days(14));
    CHECK(turned.layers[0].fedFrom == dayNumber(0));
    CHECK(turned.layers[0].fedTo == dayNumber(13.5));

    for (int day = 14; day <= 18; ++day) {
        bin.samples[0].emplace_back(dayNumber(day + 0.5), 66_degC, 1_K);
    }
    bin.entries.asOf = dayNumber(18.5);
    const auto later = reckoned(bin);
    CHECK(later.layers[0].atLeast == hours(96));
    CHECK(later.layers[0].longestRun == hours(96));
    CHECK(later.layers[0].atMost == days(18) + hours(12));
}

TEST_CASE("a run ends where layers were mixed, though the thermometer never cooled") {
    auto bin = onceFed();
    read(bin, 3.0, daily(11, 15, 66));
    bin.entries.mixings = {{dayNumber(13), false, {}}};
    bin.samples[0].insert(bin.samples[0].begin() + 3, Sample{dayNumber(13) + Seconds{1}, 66_degC, 1_K});
    const auto told = reckoned(bin);
    CHECK(told.layers[0].atLeast == hours(96) - Seconds{1});
    CHECK(told.layers[0].longestRun == hours(48));
}

TEST_CASE("forking mixes the layers that reach into its depth") {
    auto bin = onceFed();
    bin.entries.additions.push_back({dayNumber(10.5), 5, true});
    bin.entries.levels.clear();
    bin.entries.mixings = {{dayNumber(11), true, 1.0}};
    CHECK(reckoned(bin).layers.size() == 3);
    bin.entries.mixings = {{dayNumber(11), true, 2.5}};  // the feed on top is just under 2 cm
    CHECK(reckoned(bin).layers.size() == 2);
    bin.entries.mixings = {{dayNumber(11), true, {}}};
    CHECK(reckoned(bin).layers.size() == 1);
}

TEST_CASE("a bed that was never raw needs no heat") {
    auto bin = onceFed();
    bin.entries.additions.push_back({dayNumber(-2), 12.5, false});
    bin.entries.levels = {{dayNumber(10), 10.5}};
    read(bin, 6.0, daily(11, 15, 66));
    bin.entries.drawings = {{dayNumber(16), 10}};
    bin.entries.hold = hours(96);
    const auto told = reckoned(bin);
    REQUIRE(told.harvests.size() == 1);
    const auto& harvest = told.harvests[0].reckoned;
    CHECK(harvest.atLeast == hours(96));
    CHECK_FALSE(harvest.parts[0].raw);
    CHECK_FALSE(harvest.halfHad.has_value());  // more than half of it has every hour
    CHECK(harvest.nineTenthsHad == hours(96));
    CHECK(harvest.litresWithHold == Approx(10));
    bin.entries.drawings = {{dayNumber(16), 1}};
    CHECK_FALSE(reckoned(bin).harvests[0].reckoned.atLeast.has_value());
}

TEST_CASE("a harvest of more than was there takes what there was") {
    auto bin = onceFed();
    bin.entries.drawings = {{dayNumber(12), 100}, {dayNumber(13), 5}};
    const auto told = reckoned(bin);
    REQUIRE(told.harvests.size() == 2);
    CHECK(told.harvests[0].moreThanThere);
    CHECK(told.harvests[0].litres < 25);
    CHECK(told.harvests[0].litres > 10);
    CHECK(told.harvests[1].moreThanThere);
    CHECK(told.harvests[1].litres == 0);
    CHECK_FALSE(told.harvests[1].cautious.fedFrom.has_value());
    CHECK(told.layers.empty());
}

TEST_CASE("what lies below the top of the hatch may be in a harvest, and what is half as old") {
    auto bin = onceFed();
    bin.entries.additions.push_back({dayNumber(19), 12.5, true});
    bin.entries.levels.clear();
    bin.entries.drawings = {{dayNumber(20), 1}};
    CHECK(reckoned(bin).harvests[0].cautious.fedTo == dayNumber(0));
    bin.entries.hatchTopCm = 6;
    CHECK(reckoned(bin).harvests[0].cautious.fedTo == dayNumber(19));
    bin.entries.hatchTopCm = 0;
    bin.entries.additions.back().at = dayNumber(10);
    CHECK(reckoned(bin).harvests[0].cautious.fedTo == dayNumber(10));
    bin.entries.additions.back().at = dayNumber(10) + Seconds{1};
    CHECK(reckoned(bin).harvests[0].cautious.fedTo == dayNumber(0));
}

TEST_CASE("a bin of unknown volume or height has layers and harvests, and nothing is credited") {
    auto bin = onceFed();
    read(bin, 3.0, daily(11, 15, 66));
    bin.entries.drawings = {{dayNumber(16), 5}};
    bin.entries.binHeightCm.reset();
    const auto told = reckoned(bin);
    REQUIRE(told.layers.size() == 1);
    CHECK_FALSE(told.layers[0].fromCm.has_value());
    CHECK(told.layers[0].atLeast == hours(0));
    CHECK(told.layers[0].atMost == days(20));
    CHECK(told.harvests[0].litres == Approx(5));
    CHECK(lacks(told, Lacking::binHeight));
    CHECK_FALSE(lacks(told, Lacking::binVolume));
}

TEST_CASE("a position of unknown height is named and shows nothing") {
    auto bin = onceFed();
    read(bin, 3.0, daily(11, 15, 66));
    bin.heightsCm[0].reset();
    const auto told = reckoned(bin);
    CHECK(told.layers[0].atLeast == hours(0));
    CHECK(told.positionsWithoutHeight == std::vector<std::size_t>{0});
    CHECK(lacks(told, Lacking::positionHeight));
}

TEST_CASE("a bin that was never fed has no layers") {
    auto bin = emptyBin();
    bin.entries.levels = {{dayNumber(1), 5}};
    bin.entries.mixings = {{dayNumber(2), false, {}}};
    bin.entries.drawings = {{dayNumber(3), 5}};
    bin.entries.asOf = dayNumber(4);
    read(bin, 3.0, daily(0, 4, 66));
    const auto told = reckoned(bin);
    CHECK(told.layers.empty());
    CHECK(told.harvests[0].litres == 0);
    CHECK_FALSE(told.fit[1].kept);
    CHECK(told.fit[1].lasting == Approx(0.30));
}

TEST_CASE("a level on what was only just fed says nothing of how it shrinks") {
    auto bin = emptyBin();
    bin.entries.additions = {{dayNumber(1), 5, true}};
    bin.entries.levels = {{dayNumber(1), 2}};
    bin.entries.asOf = dayNumber(2);
    const auto told = reckoned(bin);
    CHECK(lacks(told, Lacking::agreement));
    CHECK(told.fit[0].lasting == Approx(0.30));
}

TEST_CASE("a century of feeds is reckoned in numbers that hold") {
    auto bin = emptyBin();
    for (int year = 0; year < 100; ++year) {
        bin.entries.additions.push_back({dayNumber(365.0 * year), 5, true});
    }
    bin.entries.levels = {{dayNumber(36'000), 61}};  // a share of 0.30 of 500 L, and the last feed's
    bin.entries.asOf = dayNumber(36'200);
    const auto told = reckoned(bin);
    REQUIRE(told.layers.size() == 100);
    CHECK(told.fit[0].kept);
    CHECK(told.fit[0].lasting == Approx(told.fit[2].lasting).margin(0.001));
    for (const auto& layer : told.layers) {
        CHECK(std::isfinite(*layer.toCm));
    }
}

TEST_CASE("covered time is added up and its longest stretch found layer by layer") {
    Coverage coverage{5};
    coverage.change(Instant{0}, {{0, 3}});
    coverage.change(Instant{10}, {{1, 5}});
    coverage.change(Instant{15}, unionOf({{4, 5}, {1, 2}, {2, 2}}));
    coverage.change(Instant{30}, {{0, 5}});
    coverage.change(Instant{31}, {});
    const std::vector<std::int64_t> totals{11, 31, 16, 6, 21};
    const std::vector<std::int64_t> longest{10, 31, 15, 5, 21};
    for (std::size_t layer = 0; layer < 5; ++layer) {
        CHECK(coverage.total(layer).count == totals[layer]);
        CHECK(coverage.longest(layer).count == longest[layer]);
    }
}

namespace {

/// Three loggers at ten minutes for a year in a bin that is fed every other day and drawn from each fortnight.
/// Temperatures scatter about the threshold, so that what is within reach changes with nearly every reading.
FedReckoning yearOfLoggers(const LayerRules& rules) {
    auto bin = emptyBin();
    auto& entries = bin.entries;
    for (int feed = 0; feed < 182; ++feed) {
        entries.additions.push_back({dayNumber(2.0 * feed), 7, true});
    }
    for (int week = 2; week < 52; week += 2) {
        entries.asOf = dayNumber(7.0 * week);
        entries.levels.push_back({entries.asOf, *reckonFed(entries, rules).layers.back().toCm});
        entries.drawings.push_back({entries.asOf, week > 10 ? 15.0 : 1.0});
    }
    std::uint64_t noise = 1;
    for (const double height : {15.0, 30.0, 45.0}) {
        bin.heightsCm.push_back(height);
        bin.samples.emplace_back();
        for (int i = 0; i < 365 * 144; ++i) {
            noise = noise * 6'364'136'223'846'793'005ULL + 1'442'695'040'888'963'407ULL;
            const auto scatter = static_cast<std::int64_t>((noise >> 33U) % 60'000);
            bin.samples.back().emplace_back(dayNumber(i / 144.0), Celsius::ofTenThousandths(570'000 + scatter), 1_K);
        }
    }
    entries.asOf = dayNumber(365);
    return reckonFed(bin.record(), rules);
}

}  // namespace

TEST_CASE("a reading costs the same however many layers there are") {
    constexpr double readings = 3 * 365 * 144;
    LayerRules thin;
    thin.sliceCm = 0.1;
    const auto few = yearOfLoggers({});
    const auto many = yearOfLoggers(thin);
    CHECK(many.layers.size() > 20 * few.layers.size());
    for (const auto& told : {few, many}) {
        CHECK(std::any_of(told.layers.begin(), told.layers.end(),
                          [](const auto& layer) { return layer.atLeast > hours(24); }));
    }
    const auto costs = [](const FedReckoning& told) { return static_cast<double>(told.effort); };
    CHECK(costs(few) / readings < 40);
    CHECK(costs(many) / costs(few) < 3);  // where more layers lie, a range is found in a few steps more
}
