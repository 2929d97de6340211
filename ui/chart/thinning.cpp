// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/thinning.h"

#include <algorithm>

namespace midden::ui {

namespace {

constexpr std::size_t blockSize = 64;

Overview::Extremes widened(std::span<const Sample> samples, Overview::Extremes a, const Overview::Extremes& b) {
    if (samples[b.coldest].temperature() < samples[a.coldest].temperature()) {
        a.coldest = b.coldest;
    }
    if (samples[b.warmest].temperature() > samples[a.warmest].temperature()) {
        a.warmest = b.warmest;
    }
    return a;
}

/// The first sample at or after `at`, from `begin` on.
std::size_t firstNotBefore(std::span<const Sample> samples, std::size_t begin, Instant at) {
    const auto rest = samples.subspan(begin);
    const auto found = std::ranges::lower_bound(rest, at, {}, [](const Sample& sample) { return sample.at; });
    return begin + static_cast<std::size_t>(found - rest.begin());
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

Overview::Overview(std::span<const Sample> samples) : samples_{samples} {
    std::size_t below = samples.size();
    while (below >= blockSize) {
        const bool ground = levels_.empty();
        std::vector<Extremes> level;
        level.reserve(below / blockSize);
        // Only whole blocks are summed up; what is left over is looked at one by one.
        for (std::size_t start = 0; start + blockSize <= below; start += blockSize) {
            Extremes block = ground ? Extremes{start, start} : levels_.back()[start];
            for (std::size_t i = start + 1; i < start + blockSize; ++i) {
                block = widened(samples, block, ground ? Extremes{i, i} : levels_.back()[i]);
            }
            level.push_back(block);
        }
        levels_.push_back(std::move(level));
        below = levels_.back().size();
    }
}

Overview::Extremes Overview::extremes(std::size_t first, std::size_t last) const {
    Extremes found{first, first};
    std::size_t index = first;
    while (index < last) {
        // The largest whole block that begins here and still ends inside the range.
        std::size_t level = 0;
        std::size_t size = 1;
        while (level < levels_.size() && index % (size * blockSize) == 0 && index + size * blockSize <= last) {
            size *= blockSize;
            ++level;
        }
        found = widened(samples_, found, level == 0 ? Extremes{index, index} : levels_[level - 1][index / size]);
        index += size;
    }
    return found;
}

std::vector<std::size_t> thinned(const Overview& overview, Interval visible, std::size_t columns) {
    const auto samples = overview.samples();
    std::vector<std::size_t> kept;
    std::size_t first = firstNotBefore(samples, 0, visible.from);
    if (first > 0) {
        kept.push_back(first - 1);
    }
    for (std::size_t column = 1; column <= columns && first < samples.size(); ++column) {
        // The right edge itself still belongs to the last column.
        const Instant end = column == columns ? visible.to + Seconds{1} : columnStart(visible, column, columns);
        const std::size_t last = firstNotBefore(samples, first, end);
        if (last > first) {
            keepColumn(overview, first, last, kept);
        }
        first = last;
    }
    if (first < samples.size()) {
        keep(kept, first);
    }
    return kept;
}

}  // namespace midden::ui
