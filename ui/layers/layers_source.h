// SPDX-License-Identifier: GPL-3.0-or-later
// What the picture of a fed bin's layers is drawn from, made once for all sizes.
#pragma once

#include <QString>
#include <memory>

#include "core/layers/layer_history.h"
#include "core/layers/thermometer_gap.h"

namespace midden::ui {

/// Where the bin is read.
struct LayersPosition {
    QString name;
    std::size_t look = 0;  ///< the n of Palette::trace
    std::optional<double> heightCm;
    std::optional<Sample> last;  ///< its latest reading
};

struct LayersSource {
    LayerHistory history;
    std::vector<LayersPosition> positions;
    std::optional<double> litresPerCm;  ///< no value: no heights, only litres
    double hatchTopCm = 0;
    Celsius threshold;
    Seconds hold;
    Instant asOf;
    std::optional<ThermometerGap> gap;  ///< where one more thermometer would tell most
    HarvestReckoning bucket;            ///< what would come out now

    bool isEmpty() const { return history.columns.empty(); }
    const LayerColumn& now() const { return history.columns.back(); }
};
using LayersPtr = std::shared_ptr<const LayersSource>;

/// What is taken out at a time, in litres.
constexpr double bucketLitres = 10;

/// `names` are those of the record's positions, in its order, which is alphabetical. Takes as long as a reckoning; the
/// record may go after.
LayersPtr layersSource(const FedRecord& record, const std::vector<QString>& names, const LayerRules& rules = {});

}  // namespace midden::ui
