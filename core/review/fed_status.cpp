// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/fed_status.h"

#include <algorithm>
#include <bitset>

#include "core/review/rounds.h"

namespace midden {

namespace {

constexpr Seconds oneDay = days(1);
constexpr std::size_t leastFeeds = 4;
constexpr std::ptrdiff_t intervalsLookedAt = 10;

std::optional<HottestPlace> hottestOf(const BatchRecord& record, const StallSettings& settings) {
    std::optional<HottestPlace> hottest;
    Instant newest{};
    for (const Track& track : record.tracks) {
        newest = std::max(newest, track.samples.back().at);
    }
    for (const Track& track : record.tracks) {
        for (auto sample = track.samples.rbegin(); sample != track.samples.rend(); ++sample) {
            if (newest - sample->at > settings.round) {
                break;
            }
            if (!hottest || sample->temperature() > hottest->temperature) {
                hottest = HottestPlace{track.position, sample->temperature(), sample->at};
            }
        }
    }
    return hottest;
}

/// Days as the steward's clock had them when the batch began.
std::int64_t dayOf(const BatchRecord& record, Instant at) {
    const Instant wall = at + Seconds{std::int64_t{record.batch.started.offset.minutes} * 60};
    return (wall.utcSeconds - (wall.utcSeconds % oneDay.count + oneDay.count) % oneDay.count) / oneDay.count;
}

int hotDaysOf(const BatchRecord& record, Celsius threshold) {
    const Instant end = lastEntryOf(record);
    const std::int64_t today = dayOf(record, end);
    std::bitset<hotDaysLookedAt> hot;
    for (const Track& track : record.tracks) {
        const auto first = std::ranges::upper_bound(track.samples, end - days(hotDaysLookedAt), {}, &Sample::at);
        for (auto sample = first; sample != track.samples.end() && sample->at <= end; ++sample) {
            const auto daysAgo = static_cast<std::size_t>(today - dayOf(record, sample->at));
            if (daysAgo < hot.size() && sample->temperature() - sample->allowance() >= threshold) {
                hot.set(daysAgo);
            }
        }
    }
    return static_cast<int>(hot.count());
}

LowestLayers together(std::span<const StandingLayer> layers) {
    LowestLayers lowest{.fedFrom = layers.front().fedFrom, .fedTo = layers.front().fedTo};
    bool hasRaw = false;
    for (const StandingLayer& layer : layers) {
        lowest.litres += layer.litres;
        lowest.fedFrom = std::min(lowest.fedFrom, layer.fedFrom);
        lowest.fedTo = std::max(lowest.fedTo, layer.fedTo);
        if (layer.raw) {
            lowest.atLeast = hasRaw ? std::min(lowest.atLeast, layer.atLeast) : layer.atLeast;
            hasRaw = true;
        }
    }
    return lowest;
}

/// From the base up, those that had the hold; only where something raw is among them.
std::optional<LowestLayers> readyOf(std::span<const StandingLayer> layers, Seconds hold) {
    const auto end =
        std::ranges::find_if(layers, [&](const StandingLayer& layer) { return layer.raw && layer.longestRun < hold; });
    const auto ready = layers.first(static_cast<std::size_t>(end - layers.begin()));
    const bool hasRaw = std::ranges::any_of(ready, &StandingLayer::raw);
    return hasRaw ? std::optional{together(ready)} : std::nullopt;
}

/// The slices of the oldest feed, as far as something raw is in them.
std::optional<LowestLayers> oldestOf(std::span<const StandingLayer> layers) {
    const auto first = std::ranges::find_if(layers, &StandingLayer::raw);
    if (first == layers.end()) {
        return std::nullopt;
    }
    const auto end =
        std::find_if(first, layers.end(), [&](const StandingLayer& layer) { return layer.fedTo != first->fedTo; });
    return together({first, end});
}

std::optional<Instant> feedDueOf(const std::vector<Instant>& feeds) {
    if (feeds.size() < leastFeeds) {
        return std::nullopt;
    }
    std::vector<Seconds> intervals;
    for (std::size_t feed = 1; feed < feeds.size(); ++feed) {
        intervals.push_back(feeds[feed] - feeds[feed - 1]);
    }
    const auto first = intervals.end() - std::min<std::ptrdiff_t>(intervalsLookedAt, std::ssize(intervals));
    const auto middle = first + (intervals.end() - first) / 2;
    std::nth_element(first, middle, intervals.end());
    return feeds.back() + *middle;
}

}  // namespace

FedStatus fedStatusOf(const BatchRecord& record, const FedRecord& fed, const FedReckoning& reckoning,
                      const HoldTarget& target) {
    const std::vector<Instant> feeds = feedTimesOf(record, lastEntryOf(record));
    FedStatus status;
    if (!feeds.empty()) {
        status.lastFed = feeds.back();
    }
    status.hottest = hottestOf(record, StallSettings{});
    status.hotDays = hotDaysOf(record, target.threshold);
    if (!fed.levels.empty()) {
        status.level = *std::ranges::max_element(fed.levels, {}, &Level::at);
    }
    status.ready = readyOf(reckoning.layers, target.hold);
    status.oldest = oldestOf(reckoning.layers);
    status.feedDue = feedDueOf(feeds);
    status.lacking = reckoning.lacking;
    status.advice = feedingAdviceOf(record, target, lastEntryOf(record));
    return status;
}

}  // namespace midden
