// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_source.h"

#include <algorithm>

namespace midden::ui {

namespace {

/// A wide window has about so many pairs of pixels across its plot.
constexpr std::size_t mostCells = 480;
constexpr std::size_t fewestCells = 60;
/// Layers times cells, so that a picture of many layers takes no more than some dozen megabytes.
constexpr std::size_t mostSeen = 240'000;

std::size_t cellsFor(const FedRecord& record, const LayerRules& rules) {
    std::size_t layers = 1;
    for (const Feed& feed : feedsOf(record.additions, rules)) {
        layers += slicesOf(feed, record.litresPerCm(), rules);
    }
    return std::clamp(mostSeen / layers, fewestCells, mostCells);
}

std::vector<double> heightsOf(const std::vector<LayersPosition>& positions) {
    std::vector<double> heights;
    for (const LayersPosition& position : positions) {
        if (position.heightCm && position.last) {
            heights.push_back(*position.heightCm);
        }
    }
    return heights;
}

/// "core" first, as everywhere in the window.
std::size_t lookOf(const std::vector<QString>& names, std::size_t index) {
    const auto core = static_cast<std::size_t>(std::ranges::find(names, QStringLiteral("core")) - names.begin());
    if (index == core) {
        return 0;
    }
    return core < names.size() && index < core ? index + 1 : index;
}

std::vector<LayersPosition> positionsOf(const FedRecord& record, const std::vector<QString>& names) {
    std::vector<LayersPosition> positions;
    for (std::size_t i = 0; i < record.positions.size(); ++i) {
        const HeightTrack& track = record.positions[i];
        const auto later = std::ranges::upper_bound(track.samples, record.asOf, {}, &Sample::at);
        const auto last = later == track.samples.begin() ? std::nullopt : std::optional{*std::prev(later)};
        positions.push_back({i < names.size() ? names[i] : QString{}, lookOf(names, i), track.heightCm, last});
    }
    return positions;
}

}  // namespace

LayersPtr layersSource(const FedRecord& record, const std::vector<QString>& names, const LayerRules& rules) {
    auto source = std::make_shared<LayersSource>();
    source->history = layersOverTime(record, cellsFor(record, rules), rules);
    source->positions = positionsOf(record, names);
    source->litresPerCm = record.litresPerCm();
    source->hatchTopCm = record.hatchTopCm;
    source->threshold = record.threshold;
    source->hold = record.hold;
    source->asOf = record.asOf;
    const auto& reckoning = source->history.reckoning;
    source->bucket = harvestOf(bucketLitres, record.asOf, reckoning.layers, {record.hold, record.hatchTopCm}, rules);
    if (source->litresPerCm && !source->isEmpty()) {
        source->gap =
            widestGap(heightsOf(source->positions), source->now().surfaceLitres() / *source->litresPerCm, rules);
    }
    return source;
}

}  // namespace midden::ui
