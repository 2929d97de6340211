// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/coverage.h"

#include <algorithm>
#include <utility>

namespace midden {

namespace {

/// The parts of `from` that are not in `without`.
LayerRanges difference(const LayerRanges& from, const LayerRanges& without) {
    LayerRanges left;
    auto other = without.begin();
    for (auto range : from) {
        while (other != without.end() && other->last <= range.first) {
            ++other;
        }
        for (auto hole = other; hole != without.end() && hole->first < range.last; ++hole) {
            if (range.first < hole->first) {
                left.push_back({range.first, hole->first});
            }
            range.first = std::max(range.first, hole->last);
        }
        if (!range.empty()) {
            left.push_back(range);
        }
    }
    return left;
}

}  // namespace

LayerRanges unionOf(std::vector<LayerRange> ranges) {
    std::sort(ranges.begin(), ranges.end());
    LayerRanges joined;
    for (const auto& range : ranges) {
        if (range.empty()) {
            continue;
        }
        if (!joined.empty() && range.first <= joined.back().last) {
            joined.back().last = std::max(joined.back().last, range.last);
        } else {
            joined.push_back(range);
        }
    }
    return joined;
}

void Coverage::change(Instant at, LayerRanges covered) {
    for (const auto& range : difference(covered_, covered)) {
        end(range, at);
    }
    for (const auto& range : difference(covered, covered_)) {
        open_.emplace(range.first, Stretch{range.last, at});
        ++touched_;
    }
    covered_ = std::move(covered);
}

Seconds Coverage::total(std::size_t id) const {
    Seconds sum;
    for (auto node = id + leaves_; node > 0; node /= 2) {
        sum += total_[node];
    }
    return sum;
}

Seconds Coverage::longest(std::size_t id) const {
    Seconds most;
    for (auto node = id + leaves_; node > 0; node /= 2) {
        most = std::max(most, longest_[node]);
    }
    return most;
}

Seconds Coverage::openFor(std::size_t id, Instant at) const {
    const auto above = open_.upper_bound(id);
    if (above == open_.begin()) {
        return {};
    }
    const auto& stretch = std::prev(above)->second;
    return stretch.last > id ? at - stretch.since : Seconds{};
}

void Coverage::end(LayerRange range, Instant at) {
    cutAt(range.first);
    cutAt(range.last);
    for (auto stretch = open_.find(range.first); stretch != open_.end() && stretch->first < range.last;) {
        note({stretch->first, stretch->second.last}, at - stretch->second.since);
        stretch = open_.erase(stretch);
    }
}

/// A stretch that goes across the lower edge of this layer becomes two that began together.
void Coverage::cutAt(std::size_t id) {
    const auto above = open_.lower_bound(id);
    if (above == open_.begin()) {
        return;
    }
    auto& stretch = std::prev(above)->second;
    if (stretch.last > id) {
        open_.emplace_hint(above, id, stretch);
        stretch.last = id;
    }
}

void Coverage::note(LayerRange range, Seconds length) {
    ++touched_;
    const auto put = [&](std::size_t node) {
        total_[node] += length;
        longest_[node] = std::max(longest_[node], length);
    };
    auto first = range.first + leaves_;
    auto last = range.last + leaves_;
    for (; first < last; first /= 2, last /= 2) {
        if (first % 2 == 1) {
            put(first++);
        }
        if (last % 2 == 1) {
            put(--last);
        }
    }
}

}  // namespace midden
