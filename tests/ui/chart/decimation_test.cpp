// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/decimation.h"

#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

using namespace midden;
using ui::decimated;
using ui::MinMaxPyramid;

namespace {

std::vector<Sample> samplesFrom(const std::vector<std::pair<std::uint16_t, std::int16_t>>& raw) {
    std::map<std::int64_t, std::int64_t> byInstant;
    for (const auto& [at, tenths] : raw) {
        byInstant[at] = tenths % 1'000;
    }
    std::vector<Sample> samples;
    samples.reserve(byInstant.size());
    for (const auto& [at, tenths] : byInstant) {
        samples.emplace_back(Instant{at}, Celsius::ofTenThousandths(tenths * 1'000));
    }
    return samples;
}

/// By the definition, without any overview: which pixel column an instant falls into, in exact integers.
std::size_t columnOf(Instant at, Interval visible, std::size_t columns) {
    const auto offset = static_cast<std::size_t>((at - visible.from).count);
    const auto length = static_cast<std::size_t>(visible.length().count);
    return std::min(columns - 1, offset * columns / length);
}

using Columns = std::map<std::size_t, std::vector<Celsius>>;

Columns columnsOf(const std::vector<Sample>& samples, Interval visible, std::size_t count) {
    Columns columns;
    for (const Sample& sample : samples) {
        if (sample.at >= visible.from && sample.at <= visible.to) {
            columns[columnOf(sample.at, visible, count)].push_back(sample.temperature());
        }
    }
    return columns;
}

std::map<std::size_t, std::pair<Celsius, Celsius>> extremesOf(const Columns& columns) {
    std::map<std::size_t, std::pair<Celsius, Celsius>> extremes;
    for (const auto& [column, temperatures] : columns) {
        extremes[column] = {*std::ranges::min_element(temperatures), *std::ranges::max_element(temperatures)};
    }
    return extremes;
}

}  // namespace

TEST_CASE("every extreme of every pixel column is drawn", "[random]") {
    CHECK(rc::check([](const std::vector<std::pair<std::uint16_t, std::int16_t>>& raw) {
        const auto samples = samplesFrom(raw);
        const Interval visible{Instant{*rc::gen::inRange(0, 30'000)}, Instant{*rc::gen::inRange(30'001, 66'000)}};
        const auto count = *rc::gen::inRange<std::size_t>(1, 60);
        const auto kept = decimated(MinMaxPyramid{samples}, visible, count);
        std::vector<Sample> drawn;
        drawn.reserve(kept.size());
        for (const std::size_t index : kept) {
            drawn.push_back(samples[index]);
        }
        const auto shown = columnsOf(drawn, visible, count);
        RC_ASSERT(extremesOf(shown) == extremesOf(columnsOf(samples, visible, count)));
        RC_ASSERT(std::ranges::all_of(shown, [](const auto& column) { return column.second.size() <= 4; }));
        RC_ASSERT(std::ranges::adjacent_find(kept, std::ranges::greater_equal{}) == kept.end());
    }));
}

TEST_CASE("with few readings nothing is left out", "[random]") {
    CHECK(rc::check([](const std::vector<std::pair<std::uint16_t, std::int16_t>>& raw) {
        const auto samples = samplesFrom(raw);
        const auto kept = decimated(MinMaxPyramid{samples}, {Instant{0}, Instant{65'536}}, 65'536);
        RC_ASSERT(kept.size() == samples.size());
    }));
}

TEST_CASE("the lines run on past both edges of what is visible") {
    std::vector<Sample> samples;
    samples.reserve(10);
    for (int i = 0; i < 10; ++i) {
        samples.emplace_back(Instant{i * 100}, Celsius::ofTenThousandths(500'000));
    }
    CHECK(decimated(MinMaxPyramid{samples}, {Instant{350}, Instant{550}}, 100) == std::vector<std::size_t>{3, 4, 5, 6});
    CHECK(decimated(MinMaxPyramid{samples}, {Instant{410}, Instant{420}}, 100) == std::vector<std::size_t>{4, 5});
}

TEST_CASE("the overview finds what a plain search finds over half a million readings") {
    std::vector<Sample> samples;
    std::uint32_t random = 1;
    for (int i = 0; i < 500'000; ++i) {
        random = random * 1'664'525U + 1'013'904'223U;
        samples.emplace_back(Instant{i * 60}, Celsius::ofTenThousandths((random >> 8) % 700'000));
    }
    const MinMaxPyramid pyramid{samples};
    for (const auto& [first, last] : {std::pair<std::size_t, std::size_t>{0, 500'000},
                                      {1, 499'999},
                                      {63, 65},
                                      {64, 4'096},
                                      {12'345, 412'346},
                                      {499'999, 500'000}}) {
        const auto begin = samples.begin() + static_cast<std::ptrdiff_t>(first);
        const auto end = samples.begin() + static_cast<std::ptrdiff_t>(last);
        const auto [coldest, warmest] = std::minmax_element(
            begin, end, [](const Sample& a, const Sample& b) { return a.temperature() < b.temperature(); });
        const auto found = pyramid.extremes(first, last);
        CHECK(samples[found.coldest].temperature() == coldest->temperature());
        CHECK(samples[found.warmest].temperature() == warmest->temperature());
    }
}
