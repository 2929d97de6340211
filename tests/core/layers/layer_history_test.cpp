// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/layer_history.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "tests/core/layers/made_bins.h"

using namespace midden;
using namespace midden::testing;

namespace {

constexpr std::uint64_t bins = 200;

bool near(double a, double b) {
    return std::abs(a - b) <= 1e-6 * std::max({1.0, std::abs(a), std::abs(b)});
}

bool same(const StandingLayer& a, const StandingLayer& b) {
    return a.fedFrom == b.fedFrom && a.fedTo == b.fedTo && a.raw == b.raw && near(a.litres, b.litres) &&
           a.atLeast == b.atLeast && a.longestRun == b.longestRun && a.atMost == b.atMost;
}

/// The same layer, as a column and as the reckoning tell it.
bool same(const LayerThen& then, const LayerHistory& history, const StandingLayer& layer) {
    const auto& origin = history.origins[then.id];
    return origin.fedFrom == layer.fedFrom && origin.fedTo == layer.fedTo && origin.raw == layer.raw &&
           near(then.toLitres - then.fromLitres, layer.litres) && near(then.looseLitres, layer.looseLitres) &&
           then.atLeast == layer.atLeast && then.longestRun == layer.longestRun && then.atMost == layer.atMost;
}

std::size_t ofOneKind(const LayerHistory& history, EventKind kind) {
    return static_cast<std::size_t>(std::ranges::count(history.events, kind, &LayerEvent::kind));
}

/// The hot middle of a bin: 40 cm fed at once, a thermometer in it.
MadeBin hotBin() {
    using namespace literals;
    auto bin = emptyBin();
    bin.entries.additions = {{dayNumber(0), 100, true}};
    bin.entries.levels = {{dayNumber(1), 38}};
    bin.heightsCm = {20};
    bin.samples.resize(1);
    for (const double day : {2.0, 3.0, 4.0}) {
        bin.samples[0].emplace_back(dayNumber(day), 66_degC, 1_K);
    }
    bin.entries.asOf = dayNumber(6);
    return bin;
}

const LayerThen& layerAt(const LayerColumn& column, double litres) {
    return *std::ranges::find_if(column.layers, [&](const LayerThen& layer) { return layer.toLitres > litres; });
}

const LayerColumn& columnAt(const LayerHistory& history, Instant at) {
    return *std::ranges::find(history.columns, at, &LayerColumn::at);
}

}  // namespace

TEST_CASE("looking at layers over time changes nothing of what is reckoned") {
    for (std::uint64_t seed = 1; seed <= bins; ++seed) {
        const auto bin = someBin(seed);
        const auto record = bin.record();
        const auto plain = reckonFed(record);
        const auto history = layersOverTime(record, 1 + seed % 90);
        CAPTURE(seed);
        CHECK(std::ranges::equal(history.reckoning.layers, plain.layers,
                                 [](const auto& a, const auto& b) { return same(a, b); }));
        REQUIRE(history.reckoning.harvests.size() == plain.harvests.size());
        CHECK(history.reckoning.effort == plain.effort);
        for (std::size_t i = 0; i < plain.harvests.size(); ++i) {
            CHECK(history.reckoning.harvests[i].reckoned.halfHad == plain.harvests[i].reckoned.halfHad);
            CHECK(history.reckoning.harvests[i].cautious.atMost == plain.harvests[i].cautious.atMost);
        }
    }
}

TEST_CASE("the last column is the reckoning") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= bins; ++seed) {
        const auto bin = someBin(seed);
        const auto history = layersOverTime(bin.record(), 40);
        CAPTURE(seed);
        if (history.columns.empty()) {
            CHECK(history.reckoning.layers.empty());
            continue;
        }
        const auto& last = history.columns.back();
        CHECK(last.at == bin.entries.asOf);
        CHECK(std::ranges::equal(last.layers, history.reckoning.layers,
                                 [&](const auto& then, const auto& layer) { return same(then, history, layer); }));
        compared += last.layers.size();
    }
    CHECK(compared > bins);
}

TEST_CASE("a column tells what a record that ends there tells and the hours of what is going on") {
    std::size_t compared = 0;
    for (std::uint64_t seed = 1; seed <= bins; ++seed) {
        auto bin = someBin(seed);
        const auto history = layersOverTime(bin.record(), 25);
        CAPTURE(seed);
        for (std::size_t i = 0; i + 1 < history.columns.size(); ++i) {
            const auto& column = history.columns[i];
            const bool moreOfTheFeed = std::ranges::any_of(bin.entries.additions, [&](const FedAddition& addition) {
                return addition.at > column.at && addition.at - column.at <= hours(12);
            });
            if (moreOfTheFeed || !history.columns[i + 1].follows) {
                continue;  // before events
            }
            auto shorter = bin.record();
            shorter.asOf = column.at;
            const auto then = reckonFed(shorter);
            REQUIRE(then.layers.size() == column.layers.size());
            for (std::size_t layer = 0; layer < then.layers.size(); ++layer) {
                CHECK(near(column.layers[layer].toLitres - column.layers[layer].fromLitres, then.layers[layer].litres));
                CHECK(column.layers[layer].atLeast >= then.layers[layer].atLeast);
                CHECK(column.layers[layer].atLeast <= then.layers[layer].atLeast + hours(36));
                CHECK(column.layers[layer].atMost <= std::max(then.layers[layer].atMost, column.layers[layer].atLeast));
                ++compared;
            }
        }
    }
    CHECK(compared > 100 * bins);
}

TEST_CASE("in columns nothing is negative and hours never fall but where layers are mixed") {
    std::size_t followed = 0;
    for (std::uint64_t seed = 1; seed <= bins; ++seed) {
        const auto bin = someBin(seed);
        const auto history = layersOverTime(bin.record(), 60);
        std::map<std::size_t, LayerThen> before;
        CAPTURE(seed);
        for (const auto& column : history.columns) {
            double below = 0;
            std::size_t last = 0;
            for (const auto& layer : column.layers) {
                CHECK((below == 0 || layer.id > last));
                last = layer.id;
                CHECK(layer.fromLitres == below);
                CHECK(layer.toLitres >= layer.fromLitres);
                below = layer.toLitres;
                CHECK(layer.lowestLitres >= -1e-9);
                CHECK(layer.lowestLitres <= layer.fromLitres + 1e-9);
                CHECK(layer.highestLitres >= layer.toLitres - 1e-9);
                CHECK(layer.longestRun <= layer.atLeast);
                CHECK(layer.atLeast <= layer.atMost);
                if (const auto earlier = before.find(layer.id); earlier != before.end()) {
                    CHECK(layer.atLeast >= earlier->second.atLeast);
                    CHECK(layer.longestRun >= earlier->second.longestRun);
                    CHECK(layer.atMost >= earlier->second.atMost);
                    ++followed;
                }
                before[layer.id] = layer;
            }
        }
    }
    CHECK(followed > 100 * bins);
}

TEST_CASE("what was fed is still there or was taken out") {
    for (std::uint64_t seed = 1; seed <= bins; ++seed) {
        const auto bin = someBin(seed);
        const auto history = layersOverTime(bin.record(), 10);
        double fed = 0;
        for (const auto& event : history.events) {
            fed += event.kind == EventKind::feed ? *event.amount : 0;
        }
        double there = 0;
        for (const auto& layer : history.reckoning.layers) {
            there += layer.looseLitres;
        }
        for (const auto& harvest : history.reckoning.harvests) {
            for (const auto& part : harvest.reckoned.parts) {
                there += part.looseLitres;
            }
        }
        CAPTURE(seed);
        CHECK(near(fed, there));
    }
}

TEST_CASE("columns are bounded by the cells and by what happened") {
    for (std::uint64_t seed = 1; seed <= bins; ++seed) {
        const auto bin = someBin(seed);
        for (const std::size_t cells : {0U, 1U, 7U, 300U}) {
            const auto history = layersOverTime(bin.record(), cells);
            CAPTURE(seed, cells);
            CHECK(history.columns.size() <= 2 * std::max<std::size_t>(cells, 1) + 1);
            CHECK(std::ranges::is_sorted(history.columns, {}, &LayerColumn::at));
            for (std::size_t i = 1; i < history.columns.size(); ++i) {
                const auto& earlier = history.columns[i - 1].layers;
                const auto& later = history.columns[i].layers;
                const bool sameLayers = std::ranges::equal(earlier, later, {}, &LayerThen::id, &LayerThen::id);
                CHECK((!history.columns[i].follows || sameLayers));
            }
        }
    }
}

TEST_CASE("every kind of event is told with its amount") {
    auto bin = hotBin();
    bin.entries.mixings = {{dayNumber(4.5), true, 12.5}, {dayNumber(4.6), false, {}}};
    bin.entries.drawings = {{dayNumber(5), 500}};
    const auto history = layersOverTime(bin.record(), 50);
    REQUIRE(history.events.size() == 5);
    CHECK(history.events[0].amount == 100.0);
    CHECK(history.events[1].amount == 38.0);
    CHECK(history.events[2].amount == 12.5);
    CHECK_FALSE(history.events[3].amount);
    CHECK(near(*history.events[4].amount, history.reckoning.harvests[0].litres));
    CHECK(*history.events[4].amount < 100);  // that were there
    CHECK(ofOneKind(history, EventKind::drawn) == 1);
}

TEST_CASE("hours grow while a hold goes on and a thermometer tells how far it speaks") {
    const auto bin = hotBin();
    const auto history = layersOverTime(bin.record(), 48);  // of three hours each
    const double middle = 20 * 2.5;
    CHECK(layerAt(columnAt(history, dayNumber(2)), middle).atLeast == Seconds{});
    CHECK(layerAt(columnAt(history, dayNumber(2.5)), middle).atLeast == hours(12));
    CHECK(layerAt(columnAt(history, dayNumber(2.5)), middle).longestRun == hours(12));
    CHECK(layerAt(columnAt(history, dayNumber(4)), middle).atLeast == hours(48));
    CHECK(layerAt(columnAt(history, dayNumber(6)), middle).atLeast == hours(48));
    CHECK(columnAt(history, dayNumber(2.5)).reachesCm.at(0) == Approx(10));  // 66 °C less 1 °C: ten degrees above
    CHECK(columnAt(history, dayNumber(5)).reachesCm.at(0) == 0);
    CHECK_FALSE(columnAt(history, dayNumber(0.5)).trusted);
    CHECK(columnAt(history, dayNumber(2.5)).trusted);
}

TEST_CASE("a harvest is seen before and after it") {
    auto bin = hotBin();
    bin.entries.drawings = {{dayNumber(5), 30}};
    const auto history = layersOverTime(bin.record(), 48);
    const auto before = std::ranges::find(history.columns, dayNumber(5), &LayerColumn::at);
    REQUIRE(before != history.columns.end());
    const auto after = std::next(before);
    CHECK(after->at == dayNumber(5));
    CHECK_FALSE(after->follows);
    CHECK(near(before->surfaceLitres() - after->surfaceLitres(), 30));
}

TEST_CASE("a bin whose height is not known has litres over time and no hours") {
    auto bin = hotBin();
    bin.entries.binHeightCm.reset();
    const auto history = layersOverTime(bin.record(), 20);
    REQUIRE_FALSE(history.columns.empty());
    CHECK(history.columns.back().surfaceLitres() > 30);
    CHECK(history.columns.back().layers.size() == 1);
    CHECK(history.columns.back().layers[0].atLeast == Seconds{});
    CHECK_FALSE(history.columns.back().trusted);
}

TEST_CASE("nothing fed is no columns") {
    auto bin = emptyBin();
    bin.entries.asOf = dayNumber(3);
    CHECK(layersOverTime(bin.record(), 20).columns.empty());
    bin.entries.additions = {{dayNumber(3), 10, true}};  // at the very end
    const auto history = layersOverTime(bin.record(), 20);
    CHECK(history.columns.size() == 2);
    CHECK(history.columns.back().layers.size() == 1);
}

TEST_CASE("a thousand layers are looked at without a step more in the reckoning") {
    auto bin = emptyBin();
    for (int day = 0; day < 1'000; ++day) {
        bin.entries.additions.push_back({dayNumber(day), 0.3, true});
        if (day % 10 == 0) {
            bin.entries.levels.push_back({dayNumber(day + 0.5), 20});
        }
    }
    bin.entries.asOf = dayNumber(1'000);
    const auto record = bin.record();
    const auto history = layersOverTime(record, 300);
    CHECK(history.columns.size() <= 601);
    CHECK(history.columns.back().layers.size() == 1'000);
    CHECK(history.reckoning.effort == reckonFed(record).effort);
}
