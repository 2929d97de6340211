// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/feed.h"

#include <algorithm>
#include <cmath>

namespace midden {

namespace {

constexpr double assumedKilogramsPerLitre = 0.40;
constexpr double litresPerCubicMetre = 1'000;

}  // namespace

LooseLitres looseLitres(const Addition& addition, std::optional<double> bulkDensity) {
    if (addition.volumeLitres) {
        return {*addition.volumeLitres, LitresFrom::volume};
    }
    if (bulkDensity && *bulkDensity > 0) {
        return {addition.massKilograms / *bulkDensity * litresPerCubicMetre, LitresFrom::density};
    }
    return {addition.massKilograms / assumedKilogramsPerLitre, LitresFrom::assumed};
}

std::vector<Feed> feedsOf(std::vector<FedAddition> additions, const LayerRules& rules) {
    std::sort(additions.begin(), additions.end());  // by all they hold, so that sums do not depend on the order given
    std::vector<Feed> feeds;
    Instant first;
    for (const auto& addition : additions) {
        if (!(addition.litres > 0)) {
            continue;
        }
        if (feeds.empty() || addition.at - first > rules.oneFeed) {
            feeds.push_back({});
            first = addition.at;
        }
        auto& feed = feeds.back();
        feed.at = addition.at;
        feed.litres += addition.litres;
        feed.raw = feed.raw || addition.raw;
    }
    return feeds;
}

std::size_t slicesOf(const Feed& feed, std::optional<double> litresPerCm, const LayerRules& rules) {
    if (!litresPerCm) {
        return 1;
    }
    const double slices = std::ceil(feed.litres / *litresPerCm / rules.sliceCm - 1e-9);
    return static_cast<std::size_t>(std::clamp(slices, 1.0, static_cast<double>(rules.mostSlices)));
}

}  // namespace midden
