// SPDX-License-Identifier: GPL-3.0-or-later
#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "tests/core/layers/made_bins.h"
#include "tests/core/layers/plain_reckoning.h"

using namespace midden;
using namespace midden::literals;
using namespace midden::testing;

namespace {

std::uint64_t anySeed() {
    return static_cast<std::uint64_t>(*rc::gen::noShrink(rc::gen::inRange<std::int64_t>(0, INT64_MAX)));
}

bool near(double a, double b) {
    return std::abs(a - b) <= 1e-7 * std::max({1.0, std::abs(a), std::abs(b)});
}

bool near(const std::optional<double>& a, const std::optional<double>& b) {
    return a.has_value() == b.has_value() && (!a || near(*a, *b));
}

/// Litres and heights to what sums of doubles allow, time to the second.
void assertAlike(const StandingLayer& a, const StandingLayer& b) {
    RC_ASSERT(a.fedFrom == b.fedFrom);
    RC_ASSERT(a.fedTo == b.fedTo);
    RC_ASSERT(a.raw == b.raw);
    RC_ASSERT(near(a.litres, b.litres));
    RC_ASSERT(near(a.looseLitres, b.looseLitres));
    RC_ASSERT(near(a.fromCm, b.fromCm));
    RC_ASSERT(near(a.toCm, b.toCm));
    RC_ASSERT(a.atLeast.count == b.atLeast.count);
    RC_ASSERT(a.longestRun.count == b.longestRun.count);
    RC_ASSERT(a.atMost.count == b.atMost.count);
}

void assertAlike(const AsReckoned& a, const AsReckoned& b) {
    RC_ASSERT((a.atLeast == b.atLeast));
    RC_ASSERT((a.longestRun == b.longestRun));
    RC_ASSERT((a.halfHad == b.halfHad));
    RC_ASSERT((a.nineTenthsHad == b.nineTenthsHad));
    RC_ASSERT(near(a.litresWithHold, b.litresWithHold));
    RC_ASSERT(a.parts.size() == b.parts.size());
    for (std::size_t i = 0; i < a.parts.size(); ++i) {
        RC_ASSERT(near(a.parts[i].litres, b.parts[i].litres));
        RC_ASSERT(near(a.parts[i].looseLitres, b.parts[i].looseLitres));
        RC_ASSERT(a.parts[i].raw == b.parts[i].raw);
        RC_ASSERT(a.parts[i].atLeast == b.parts[i].atLeast);
        RC_ASSERT(a.parts[i].longestRun == b.parts[i].longestRun);
    }
}

void assertAlike(const HarvestReckoning& a, const HarvestReckoning& b) {
    RC_ASSERT(a.at == b.at);
    RC_ASSERT(near(a.asked, b.asked));
    RC_ASSERT(near(a.litres, b.litres));
    RC_ASSERT(a.moreThanThere == b.moreThanThere);
    assertAlike(a.reckoned, b.reckoned);
    RC_ASSERT((a.cautious.fedFrom == b.cautious.fedFrom));
    RC_ASSERT((a.cautious.fedTo == b.cautious.fedTo));
    RC_ASSERT((a.cautious.atLeast == b.cautious.atLeast));
    RC_ASSERT((a.cautious.longestRun == b.cautious.longestRun));
    RC_ASSERT((a.cautious.atMost == b.cautious.atMost));
}

void assertAlike(const FedReckoning& a, const FedReckoning& b) {
    RC_ASSERT(a.layers.size() == b.layers.size());
    for (std::size_t i = 0; i < a.layers.size(); ++i) {
        assertAlike(a.layers[i], b.layers[i]);
    }
    RC_ASSERT(a.harvests.size() == b.harvests.size());
    for (std::size_t i = 0; i < a.harvests.size(); ++i) {
        assertAlike(a.harvests[i], b.harvests[i]);
    }
    for (std::size_t k = 0; k < shrinkModels; ++k) {
        RC_ASSERT(a.fit[k].kept == b.fit[k].kept);
        RC_ASSERT(near(a.fit[k].lasting, b.fit[k].lasting));
    }
}

/// Nothing in `less` has more hours to show than in `more`.
void assertNoMore(const FedReckoning& less, const FedReckoning& more) {
    RC_ASSERT(less.layers.size() == more.layers.size());
    for (std::size_t i = 0; i < less.layers.size(); ++i) {
        RC_ASSERT(less.layers[i].atLeast <= more.layers[i].atLeast);
        RC_ASSERT(less.layers[i].longestRun <= more.layers[i].longestRun);
    }
    RC_ASSERT(less.harvests.size() == more.harvests.size());
    for (std::size_t i = 0; i < less.harvests.size(); ++i) {
        RC_ASSERT((less.harvests[i].reckoned.atLeast <= more.harvests[i].reckoned.atLeast));
        RC_ASSERT((less.harvests[i].reckoned.halfHad <= more.harvests[i].reckoned.halfHad));
        RC_ASSERT((less.harvests[i].reckoned.nineTenthsHad <= more.harvests[i].reckoned.nineTenthsHad));
        RC_ASSERT((less.harvests[i].cautious.atLeast <= more.harvests[i].cautious.atLeast));
    }
}

template <class Entry>
void shiftAll(std::vector<Entry>& entries, Seconds by) {
    for (auto& entry : entries) {
        entry.at = entry.at + by;
    }
}

void shift(MadeBin& bin, Seconds by) {
    auto& entries = bin.entries;
    shiftAll(entries.additions, by);
    shiftAll(entries.levels, by);
    shiftAll(entries.mixings, by);
    shiftAll(entries.drawings, by);
    for (auto& samples : bin.samples) {
        shiftAll(samples, by);
    }
    entries.asOf = entries.asOf + by;
}

double litresThere(const FedReckoning& told) {
    double sum = 0;
    for (const auto& layer : told.layers) {
        sum += layer.litres;
    }
    return sum;
}

double litresTaken(const FedReckoning& told) {
    double sum = 0;
    for (const auto& harvest : told.harvests) {
        sum += harvest.litres;
    }
    return sum;
}

double looseThere(const FedReckoning& told) {
    double sum = 0;
    for (const auto& layer : told.layers) {
        sum += layer.looseLitres;
    }
    return sum;
}

}  // namespace

TEST_CASE("going once through the readings says what looking at every layer for every two readings says", "[random]") {
    CHECK(rc::check([] {
        for (int bins = 0; bins < 10; ++bins) {
            const auto bin = someBin(anySeed());
            const auto record = bin.record();
            assertAlike(reckonFed(record), reckonPlainly(record));
        }
    }));
}

TEST_CASE("the bins made at random show hot and cold layers, and harvests of all kinds", "[random]") {
    int hot = 0;
    int ruledOut = 0;
    int harvests = 0;
    int withHold = 0;
    int more = 0;
    for (std::uint64_t seed = 0; seed < 300; ++seed) {
        const auto bin = someBin(seed);
        const auto told = reckonFed(bin.record());
        const auto some = [&](auto holds) { return std::any_of(told.layers.begin(), told.layers.end(), holds); };
        hot += some([](const auto& layer) { return layer.atLeast > hours(24); }) ? 1 : 0;
        ruledOut += some([&](const auto& layer) { return layer.atMost + hours(1) < bin.entries.asOf - layer.fedTo; });
        for (const auto& harvest : told.harvests) {
            ++harvests;
            withHold += harvest.reckoned.halfHad > hours(1) ? 1 : 0;
            more += harvest.moreThanThere ? 1 : 0;
        }
    }
    CHECK(hot >= 75);
    CHECK(ruledOut >= 30);
    CHECK(harvests >= 200);
    CHECK(withHold >= 20);
    CHECK(more >= 20);
}

TEST_CASE("a layer had at most as many hours as since it was fed, and at least no more than at most", "[random]") {
    CHECK(rc::check([] {
        const auto bin = someBin(anySeed());
        const auto told = reckonFed(bin.record());
        for (const auto& layer : told.layers) {
            RC_ASSERT(Seconds{} <= layer.longestRun);
            RC_ASSERT(layer.longestRun <= layer.atLeast);
            RC_ASSERT(layer.atLeast <= layer.atMost);
            RC_ASSERT(layer.atMost <= bin.entries.asOf - layer.fedFrom);
        }
        for (const auto& harvest : told.harvests) {
            const auto& cautious = harvest.cautious;
            RC_ASSERT(!cautious.atLeast || *cautious.atLeast <= cautious.atMost);
            RC_ASSERT(!cautious.atLeast || !harvest.reckoned.atLeast || *cautious.atLeast <= *harvest.reckoned.atLeast);
        }
    }));
}

TEST_CASE("asking for more heat never shows more hours", "[random]") {
    CHECK(rc::check([] {
        auto bin = someBin(anySeed());
        const auto lower = reckonFed(bin.record());
        bin.entries.threshold = bin.entries.threshold + Kelvins::ofTenThousandths(*rc::gen::inRange(1, 100'000));
        assertNoMore(reckonFed(bin.record()), lower);
    }));
}

TEST_CASE("one more reading between two, no cooler than the cooler and no level between, takes no hours away",
          "[random]") {
    CHECK(rc::check([] {
        auto bin = someBin(anySeed());
        auto& samples = bin.samples.front();
        RC_PRE(samples.size() > 1);
        const auto number = static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(samples.size()) - 1));
        const auto first = samples[number];
        const auto second = samples[number + 1];
        RC_PRE(second.at - first.at <= hours(36));
        RC_PRE(std::none_of(bin.entries.levels.begin(), bin.entries.levels.end(),
                            [&](const Level& level) { return first.at <= level.at && level.at < second.at; }));
        const auto before = reckonFed(bin.record());
        const auto& cooler =
            first.temperature() - first.allowance() < second.temperature() - second.allowance() ? first : second;
        const Sample between{first.at + Seconds{*rc::gen::inRange<std::int64_t>(1, (second.at - first.at).count)},
                             cooler.temperature() + Kelvins::ofTenThousandths(*rc::gen::inRange(0, 30'000)),
                             cooler.allowance()};
        samples.insert(samples.begin() + static_cast<std::ptrdiff_t>(number) + 1, between);
        assertNoMore(before, reckonFed(bin.record()));
    }));
}

TEST_CASE("a bin reckoned at another time of the world is the same bin", "[random]") {
    CHECK(rc::check([] {
        auto bin = someBin(anySeed());
        auto expected = reckonFed(bin.record());
        const Seconds by{*rc::gen::inRange<std::int64_t>(-1'000'000'000, 1'000'000'000)};
        shift(bin, by);
        for (auto& layer : expected.layers) {
            layer.fedFrom = layer.fedFrom + by;
            layer.fedTo = layer.fedTo + by;
        }
        for (auto& harvest : expected.harvests) {
            harvest.at = harvest.at + by;
            if (harvest.cautious.fedFrom) {
                harvest.cautious.fedFrom = *harvest.cautious.fedFrom + by;
                harvest.cautious.fedTo = *harvest.cautious.fedTo + by;
            }
        }
        assertAlike(reckonFed(bin.record()), expected);
    }));
}

TEST_CASE("an addition written as two at one instant changes nothing", "[random]") {
    CHECK(rc::check([] {
        auto bin = someBin(anySeed());
        const auto expected = reckonFed(bin.record());
        auto& additions = bin.entries.additions;
        const auto number = static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(additions.size())));
        auto half = additions[number];
        half.litres *= *rc::gen::inRange(1, 100) / 100.0;
        additions[number].litres -= half.litres;
        additions.push_back(half);
        assertAlike(reckonFed(bin.record()), expected);
    }));
}

TEST_CASE("the order in which entries were written down does not matter", "[random]") {
    CHECK(rc::check([] {
        const auto seed = anySeed();
        auto bin = someBin(seed);
        const auto expected = reckonFed(bin.record());
        std::mt19937_64 dice{seed};
        std::shuffle(bin.entries.additions.begin(), bin.entries.additions.end(), dice);
        std::shuffle(bin.entries.levels.begin(), bin.entries.levels.end(), dice);
        std::shuffle(bin.entries.mixings.begin(), bin.entries.mixings.end(), dice);
        std::shuffle(bin.entries.drawings.begin(), bin.entries.drawings.end(), dice);
        assertAlike(reckonFed(bin.record()), expected);
    }));
}

TEST_CASE("what is written down later does not count as of an earlier moment", "[random]") {
    CHECK(rc::check([] {
        auto bin = someBin(anySeed());
        auto& entries = bin.entries;
        const auto expected = reckonFed(bin.record());
        const auto later = [&](const auto& entry) { return entry.at > entries.asOf; };
        std::erase_if(entries.additions, later);
        std::erase_if(entries.levels, later);
        std::erase_if(entries.mixings, later);
        std::erase_if(entries.drawings, later);
        for (auto& samples : bin.samples) {
            std::erase_if(samples, later);
        }
        assertAlike(reckonFed(bin.record()), expected);
    }));
}

TEST_CASE("what goes in is there or was taken, litre by litre", "[random]") {
    CHECK(rc::check([] {
        const auto bin = someBin(anySeed());
        const auto told = reckonFed(bin.record());
        double in = 0;
        for (const auto& addition : bin.entries.additions) {
            in += addition.at <= bin.entries.asOf ? addition.litres : 0;
        }
        double out = 0;
        for (const auto& harvest : told.harvests) {
            double parts = 0;
            for (const auto& part : harvest.reckoned.parts) {
                out += part.looseLitres;
                parts += part.litres;
            }
            RC_ASSERT(near(parts, harvest.litres));
            RC_ASSERT(harvest.reckoned.litresWithHold <= harvest.litres + 1e-7);
        }
        RC_ASSERT(near(in, out + looseThere(told)));
    }));
}

TEST_CASE("after a harvest so many litres fewer are there", "[random]") {
    CHECK(rc::check([] {
        auto bin = someBin(anySeed());
        auto& entries = bin.entries;
        const auto before = reckonFed(bin.record());
        entries.drawings.push_back({entries.asOf, *rc::gen::inRange(1, 1'000) / 10.0});
        const auto after = reckonFed(bin.record());
        RC_ASSERT(near(litresThere(before) + litresTaken(before), litresThere(after) + litresTaken(after)));
        double floor = 0;
        for (const auto& layer : after.layers) {  // and what stays stands on the floor, layer on layer
            RC_ASSERT(near(layer.fromCm.value_or(floor), floor));
            floor = layer.toCm.value_or(floor);
        }
    }));
}
