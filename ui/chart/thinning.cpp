// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/thinning.h"

#include <algorithm>

namespace midden::ui {

namespace {

constexpr std::size_t blockSize = 16;

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

void keepColumn(const Overview& overview, std::size_t first, std::size_t last, std::vector<std::size_t>& kept) {
    if (last - first <= 4) {
        for (std::size_t index = first; index < last; ++index) {
            keep(kept, index);
        }
        return;
    }
    const auto [coldest, warmest] = overview.extremes(first, last);
    keep(kept, first);
    keep(kept, std::min(coldest, warmest));
    keep(kept, std::max(coldest, warmest));
    keep(kept, last - 1);
}

}  // namespace

Overview::Block Overview::blockOf(std::span<const Sample> samples, std::size_t index) {
    const auto place = static_cast<std::uint32_t>(index);
    const auto parts = static_cast<std::int32_t>(samples[index].temperature().parts());
    return {place, place, parts, parts};
}

/// The earliest wins among equals.
void Overview::widen(Block& block, const Block& by) {
    if (by.least < block.least) {
        block.least = by.least;
        block.coldest = by.coldest;
    }
    if (by.most > block.most) {
        block.most = by.most;
        block.warmest = by.warmest;
    }
}

Overview::Overview(std::span<const Sample> samples) : samples_{samples} {
    std::size_t below = samples.size();
    while (below >= blockSize) {
        const auto at = [&](std::size_t i) { return levels_.empty() ? blockOf(samples, i) : levels_.back()[i]; };
        std::vector<Block> level;
        level.reserve(below / blockSize);
        // Only whole blocks are summed up; what is left over is looked at one by one.
        for (std::size_t start = 0; start + blockSize <= below; start += blockSize) {
            Block block = at(start);
            for (std::size_t i = start + 1; i < start + blockSize; ++i) {
                widen(block, at(i));
            }
            level.push_back(block);
        }
        levels_.push_back(std::move(level));
        below = levels_.back().size();
    }
}

Overview::Extremes Overview::extremes(std::size_t first, std::size_t last) const {
    Block found = blockOf(samples_, first);
    std::size_t index = first;
    while (index < last) {
        // The largest whole block that begins here and still ends inside the range.
        std::size_t level = 0;
        std::size_t size = 1;
        while (level < levels_.size() && index % (size * blockSize) == 0 && index + size * blockSize <= last) {
            size *= blockSize;
            ++level;
        }
        widen(found, level == 0 ? blockOf(samples_, index) : levels_[level - 1][index / size]);
        index += size;
    }
    return {found.coldest, found.warmest};
}

std::vector<std::size_t> thinned(const Overview& overview, Interval visible, std::size_t columns) {
    const auto samples = overview.samples();
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
        if (last > first) {
            keepColumn(overview, first, last, kept);
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
