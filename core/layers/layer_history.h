// SPDX-License-Identifier: GPL-3.0-or-later
// The layers of a fed bin over time: what a picture of it is drawn from.
#pragma once

#include "core/layers/events.h"
#include "core/layers/reckoning.h"

namespace midden {

/// What stays the same of a layer as long as it is one.
struct LayerOrigin {
    Instant fedFrom;
    Instant fedTo;
    Instant since;  ///< fed, or, of a mixed one, mixed
    bool raw = true;
};

/// A layer at one instant, by the way of shrinking that a harvest goes by. Heights are told in litres below, for the
/// bin's floor area may not be known.
struct LayerThen {
    std::size_t id = 0;  ///< of `LayerHistory::origins`
    double fromLitres = 0;
    double toLitres = 0;
    double lowestLitres = 0;   ///< of its lower edge, by all ways of shrinking that are kept; none: by all
    double highestLitres = 0;  ///< of its upper edge, the same
    double looseLitres = 0;    ///< as they were thrown in
    Seconds atLeast;
    Seconds longestRun;
    Seconds atMost;
};

struct LayerColumn {
    Instant at;
    bool follows = false;           ///< nothing happened since the column before: the same layers, sunk a little
    bool trusted = false;           ///< a level that agrees with what was fed was measured not long ago
    std::vector<LayerThen> layers;  ///< lowest first
    std::vector<double> reachesCm;  ///< of every position of the record; 0 where it shows nothing to be hot

    double surfaceLitres() const { return layers.empty() ? 0 : layers.back().toLitres; }
};

struct LayerEvent {
    Instant at;
    EventKind kind{};
    /// Litres fed or taken (those that were there); of a level, cm above the floor; of a forking, cm of depth. No value
    /// where all was mixed.
    std::optional<double> amount;
};

struct LayerHistory {
    FedReckoning reckoning;            ///< as of the last entry
    std::vector<LayerOrigin> origins;  ///< by id; those never seen in a column are left as they are
    std::vector<LayerColumn> columns;  ///< in time order; empty where nothing was fed
    std::vector<LayerEvent> events;    ///< all of them, in time order
};

/// Of the whole record, from the first event to `asOf`, cut into `cells` equal stretches of time: each gives one
/// column, or, where something happened in it, one before and one after all of that. Costs what a reckoning does and,
/// for each column, the layers then in the bin.
LayerHistory layersOverTime(const FedRecord& record, std::size_t cells, const LayerRules& rules = {});

}  // namespace midden
