// SPDX-License-Identifier: GPL-3.0-or-later
// A bin that is fed on top and emptied at the base, reckoned layer by layer: for how long each was at the threshold, by
// what the readings show, and what a harvest went through. "At least" and "at most", at the thermometer and not at the
// wall; a reckoning of ours, by which no published rule is ever judged.
#pragma once

#include "core/layers/fed_record.h"
#include "core/layers/harvest.h"
#include "core/layers/layer_watch.h"

namespace midden {

/// What is not known, so that less can be told.
enum class Lacking : std::uint8_t {
    binVolume = 0,       ///< no heights, so nothing is credited
    binHeight = 1,       ///< the same
    positionHeight = 2,  ///< of some position with readings
    anyLevel = 3,        ///< none was ever measured: nothing is credited
    recentLevel = 4,     ///< none in the last days before the last entry: nothing more is credited
    agreement = 5        ///< the latest level and what was fed disagree: nothing more is credited
};

struct ModelFit {
    double shrinkDays = 0;
    double lasting = 0;  ///< s∞, the share of the loose volume that stays
    bool kept = false;
};

struct FedReckoning {
    std::vector<StandingLayer> layers;       ///< as of the last entry, lowest first
    std::vector<HarvestReckoning> harvests;  ///< in time order
    std::array<ModelFit, shrinkModels> fit;  ///< as of the last entry
    std::vector<Lacking> lacking;
    std::vector<std::size_t> positionsWithoutHeight;  ///< numbers in the record
    std::size_t effort = 0;  ///< comparisons and ranges touched: grows with readings and events, not with layers
};

/// The same for a record however its entries are ordered. Harvests cost the layers then in the bin, all else the same
/// for each reading and event (a reading: for each position near its own).
FedReckoning reckonFed(const FedRecord& record, const LayerRules& rules = {});
/// The same, and shows `watch` the layers as it comes by the instants it asks for. Each look costs the layers then in
/// the bin.
FedReckoning reckonFed(const FedRecord& record, const LayerRules& rules, LayerWatch& watch);

}  // namespace midden
