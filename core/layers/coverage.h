// SPDX-License-Identifier: GPL-3.0-or-later
// For how long each of many layers had something, where that is known of ranges of them.
#pragma once

#include <cstddef>
#include <map>
#include <vector>

#include "core/quantities/time.h"

namespace midden {

/// Layers by their ids, from `first` to the one before `last`. Empty where first >= last.
struct LayerRange {
    std::size_t first = 0;
    std::size_t last = 0;

    bool empty() const { return first >= last; }
    auto operator<=>(const LayerRange&) const = default;
};

/// In order, none touching another.
using LayerRanges = std::vector<LayerRange>;

/// The union of ranges in any order.
LayerRanges unionOf(std::vector<LayerRange> ranges);

/// Adds up, layer by layer, the time in which it was covered, and finds the longest unbroken stretch of it. It is told
/// only when what is covered changes, and touches then only the layers' ranges that change: a stretch that ends is put
/// down once for all layers it began for together.
class Coverage {
  public:
    explicit Coverage(std::size_t layers) : leaves_{layers}, total_(2 * layers), longest_(2 * layers) {}

    /// From `at` on these are covered and no others. `at` never goes back.
    void change(Instant at, LayerRanges covered);

    /// Of stretches that have ended.
    Seconds total(std::size_t id) const;
    Seconds longest(std::size_t id) const;
    /// How long the stretch it is in has gone on at `at`; `at` is no earlier than the latest change. 0: it is in none.
    Seconds openFor(std::size_t id, Instant at) const;

    /// How many ranges were begun or ended: what all this cost.
    std::size_t rangesTouched() const { return touched_; }

  private:
    struct Stretch {
        std::size_t last = 0;
        Instant since;
    };
    using Stretches = std::map<std::size_t, Stretch>;  // by the first layer of each

    void end(LayerRange range, Instant at);
    void cutAt(std::size_t id);
    void note(LayerRange range, Seconds length);

    std::size_t leaves_;
    LayerRanges covered_;
    Stretches open_;
    // Each node of a tree over the layers holds what is common to all below it; a layer's own is found on its way up.
    std::vector<Seconds> total_;
    std::vector<Seconds> longest_;
    std::size_t touched_ = 0;
};

}  // namespace midden
