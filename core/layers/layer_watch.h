// SPDX-License-Identifier: GPL-3.0-or-later
// Looking at the layers of a fed bin while its record is gone through.
#pragma once

#include <functional>

#include "core/layers/harvest.h"

namespace midden {

/// An instant at which the layers are wanted: before whatever happened then, or after all of it.
struct LayerLook {
    Instant at;
    bool beforeEvents = false;
};

/// How they stand then. Hours count up to that instant, also those of an interval that a later reading closes.
struct LayersSeen {
    const LayerLook& look;
    const Pile& pile;
    const Shape& shape;
    std::span<const StandingLayer> layers;  ///< lowest first
    std::span<const double> reachesCm;      ///< of every position of the record: how far it shows layers to be hot
};

/// Who wants to see them, and when.
class LayerWatch {
  public:
    using See = std::function<void(const LayersSeen&)>;

    /// Nobody.
    LayerWatch() = default;
    /// `looks` are in time order; of one instant, that before events comes first.
    LayerWatch(std::vector<LayerLook> looks, See see) : looks_{std::move(looks)}, see_{std::move(see)} {}

    /// The next look that comes before the events at `until`. Each is given once.
    const LayerLook* nextUntil(Instant until) {
        const bool isDue = next_ < looks_.size() &&
                           (looks_[next_].at < until || (looks_[next_].at == until && looks_[next_].beforeEvents));
        return isDue ? &looks_[next_++] : nullptr;
    }
    void see(const LayersSeen& seen) const { see_(seen); }

  private:
    std::vector<LayerLook> looks_;
    See see_;
    std::size_t next_ = 0;
};

}  // namespace midden
