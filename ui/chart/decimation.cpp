// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/decimation.h"

#include <algorithm>

namespace midden::ui {

namespace {

constexpr std::size_t blockSize = 16;
constexpr std::int64_t placesADegree = std::int64_t{1} << 32;
constexpr std::int64_t lastPlace = placesADegree - 1;

/// How many samples a block of a level holds.
constexpr std::size_t blockOn(std::size_t level) {
    return std::size_t{1} << (4 * level);
}
static_assert(blockOn(1) == blockSize);

/// The first sample at or after `at`, from `begin` on, looked for about `guess` samples further: mostly readings come
/// evenly.
std::size_t firstNotBefore(std::span<const Sample> samples, std::size_t begin, Instant at, std::size_t guess) {
    std::size_t low = begin;  // all before it are earlier
    std::size_t high = std::min(begin + guess, samples.size());
    std::size_t step = 1;
    if (high < samples.size() && samples[high].at < at) {
        do {
            low = high + 1;
            high = std::min(high + step, samples.size());
            step *= 2;
        } while (high < samples.size() && samples[high].at < at);
    } else {
        while (high > low + step && samples[high - step].at >= at) {
            high -= step;
            step *= 2;
        }
        low = high > low + step ? high - step + 1 : low;
    }
    const auto rest = samples.subspan(low, high - low);
    const auto found = std::ranges::lower_bound(rest, at, {}, [](const Sample& sample) { return sample.at; });
    return low + static_cast<std::size_t>(found - rest.begin());
}

/// When column `column` of `columns` begins: the first whole second in it.
Instant columnStart(Interval visible, std::size_t column, std::size_t columns) {
    const double way = static_cast<double>(column) / static_cast<double>(columns);
    const double offset = way * static_cast<double>(visible.length().count);
    const auto whole = static_cast<std::int64_t>(offset);
    return visible.from + Seconds{whole + (static_cast<double>(whole) < offset ? 1 : 0)};
}

void keep(std::vector<std::size_t>& kept, std::size_t index) {
    if (kept.empty() || kept.back() < index) {
        kept.push_back(index);
    }
}

void keepColumn(const MinMaxPyramid& pyramid, std::size_t first, std::size_t last, std::vector<std::size_t>& kept) {
    if (last - first <= 4) {
        for (std::size_t index = first; index < last; ++index) {
            keep(kept, index);
        }
        return;
    }
    const auto [coldest, warmest] = pyramid.extremes(first, last);
    keep(kept, first);
    keep(kept, std::min(coldest, warmest));
    keep(kept, std::max(coldest, warmest));
    keep(kept, last - 1);
}

}  // namespace

MinMaxPyramid::Block MinMaxPyramid::overSamples(std::size_t first, std::size_t last) const {
    Block found;
    for (std::size_t index = first; index < last; ++index) {
        const std::int64_t degrees = samples_[index].temperature().parts() * placesADegree;
        const auto place = static_cast<std::int64_t>(index);
        found.take({degrees + place, degrees + lastPlace - place});
    }
    return found;
}

/// Of samples on level 0, of blocks of 16 on level 1, and so on.
MinMaxPyramid::Block MinMaxPyramid::over(std::size_t level, std::size_t first, std::size_t last) const {
    if (level == 0) {
        return overSamples(first, last);
    }
    Block found;
    for (const Block& block : std::span{levels_[level - 1]}.subspan(first, last - first)) {
        found.take(block);
    }
    return found;
}

MinMaxPyramid::MinMaxPyramid(std::span<const Sample> samples) : samples_{samples} {
    // Only whole blocks are summed up; what is left over is looked at one by one.
    std::size_t blocks = samples.size() / blockSize;
    while (blocks > 0) {
        std::vector<Block> level;
        level.reserve(blocks);
        for (std::size_t block = 0; block < blocks; ++block) {
            level.push_back(over(levels_.size(), block * blockSize, (block + 1) * blockSize));
        }
        levels_.push_back(std::move(level));
        blocks /= blockSize;
    }
}

/// Part of one block of the level above. Mostly that block tells that nothing in it matters: looking into it would be
/// waiting for memory.
void MinMaxPyramid::takeEdge(Block& found, std::size_t level, std::size_t first, std::size_t last) const {
    const std::size_t block = first / blockSize;
    const bool isWhole = block < levels_[level].size();
    if (first < last && (!isWhole || levels_[level][block].reachesBeyond(found))) {
        found.take(over(level, first, last));
    }
}

MinMaxPyramid::Extremes MinMaxPyramid::extremes(std::size_t first, std::size_t last) const {
    // The blocks of a level that lie in the range as a whole.
    const auto firstOn = [&](std::size_t level) { return (first + blockOn(level) - 1) / blockOn(level); };
    const auto lastOn = [&](std::size_t level) { return last / blockOn(level); };
    std::size_t level = 0;
    while (level < levels_.size() && firstOn(level + 1) < lastOn(level + 1)) {
        ++level;
    }
    Block found = over(level, firstOn(level), lastOn(level));
    for (; level > 0; --level) {
        takeEdge(found, level - 1, firstOn(level - 1), firstOn(level) * blockSize);
        takeEdge(found, level - 1, lastOn(level) * blockSize, lastOn(level - 1));
    }
    const auto placeIn = [](std::int64_t number) { return static_cast<std::size_t>(number & lastPlace); };
    return {placeIn(found.coldest), static_cast<std::size_t>(lastPlace) - placeIn(found.warmest)};
}

void MinMaxPyramid::expect(std::size_t index) const {
    if (index < samples_.size()) {
        __builtin_prefetch(&samples_[index]);
    }
    for (const auto& level : levels_) {
        index /= blockSize;
        if (index < level.size()) {
            __builtin_prefetch(&level[index]);
        }
    }
}

std::vector<std::size_t> decimated(const MinMaxPyramid& pyramid, Interval visible, std::size_t columns) {
    const auto samples = pyramid.samples();
    std::vector<std::size_t> kept;
    std::size_t first = firstNotBefore(samples, 0, visible.from, samples.size() / 2);
    std::size_t before = 0;  // samples in the column before
    if (first > 0) {
        kept.push_back(first - 1);
    }
    for (std::size_t column = 1; column <= columns && first < samples.size(); ++column) {
        // The right edge itself still belongs to the last column.
        const Instant end = column == columns ? visible.to + Seconds{1} : columnStart(visible, column, columns);
        const std::size_t last = firstNotBefore(samples, first, end, before);
        pyramid.expect(last + 2 * (last - first));
        if (last > first) {
            keepColumn(pyramid, first, last, kept);
        }
        before = last - first;
        first = last;
    }
    if (first < samples.size()) {
        keep(kept, first);
    }
    return kept;
}

}  // namespace midden::ui
