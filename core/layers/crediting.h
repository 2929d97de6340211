// SPDX-License-Identifier: GPL-3.0-or-later
// What readings show of the layers within their reach.
#pragma once

#include <array>

#include "core/layers/coverage.h"
#include "core/layers/fed_record.h"
#include "core/layers/pile.h"
#include "core/thermal/interval.h"

namespace midden {

/// Goes once through the readings of all positions in time order. Between two readings the layers that a position shows
/// to be hot, or cold, lie together, and are mostly those of the pair before: their range is looked for from where it
/// was, and counts only where it changes. So a reading costs the same however many layers there are.
class Crediting {
  public:
    /// `record` is looked at as long as this lives. Of so many `layers` in all.
    Crediting(const FedRecord& record, const LayerRules& rules, std::size_t layers);

    /// How far to read, and where layers are moved next: nothing read before shows anything beyond that.
    struct Extent {
        Instant until;
        Instant moved;
    };
    /// The readings up to and with `until`, since where it was left; nothing moved layers in between. Puts `feeds` on
    /// the pile at their time. `fits` are those after every level up to `moved`, in time order, the first before any.
    void readUntil(Extent extent, Pile& pile, std::span<const Fit> fits, std::span<const Feed> feeds);

    /// Intervals in which a layer was at or above the threshold.
    const Coverage& hot() const { return hot_; }
    /// Intervals in which it was shown to be below, by readings and heights that are trusted on the same terms.
    const Coverage& cold() const { return cold_; }

    /// How far each position, by its number in the record, shows layers to be hot in the interval it is in, in cm: 0
    /// where it shows none. Whether a level lets that be credited is another matter.
    std::vector<double> reaches() const;

    /// How often an edge was compared or a range begun or ended.
    std::size_t effort() const { return looks_ + hot_.rangesTouched() + cold_.rangesTouched(); }

  private:
    /// A range by the layers' ids, and by their numbers, which is where to look for the next one.
    struct Shown {
        LayerRange ids;
        LayerRange numbers;
    };
    struct Position {
        std::size_t number = 0;  ///< in the record
        double litres = 0;       ///< that lie below its height
        std::span<const Sample> samples;
        std::size_t next = 0;
        Instant to;  ///< the end of the interval it is in, which began with the reading before `next`
        bool isHot = false;
        double hotReachCm = 0;
        Shown hot;
        Shown cold;
        std::vector<std::size_t> pairs;
    };
    struct Pair {
        std::size_t lower = 0;
        std::size_t upper = 0;
        Shown hot;
    };

    void addPairs(std::span<const std::size_t> places, const FedRecord& record);
    std::optional<Instant> nextReading(Instant until) const;
    void begin(Position& position, Instant moved, const Pile& pile);
    void beginPair(Pair& pair, Instant at, const Pile& pile);
    void beginPairs(Instant at, const Pile& pile);
    void settle(Instant at);
    const Shape& shapeAt(Instant at, const Pile& pile);
    /// The layers wholly between these litres at both instants.
    Shown between(double low, double high, Interval over, const Pile& pile, const Shown& before);
    /// Whether that made a difference is remembered.
    static void show(Shown& place, const Shown& shown, bool& changed);

    LayerRules rules_;
    double litresPerCm_ = 0;
    Celsius threshold_;
    std::size_t recorded_ = 0;         ///< positions in the record
    std::vector<Position> positions_;  ///< those of known height
    std::vector<Pair> pairs_;
    std::span<const Fit> fits_;
    std::array<Shape, 2> shapes_;  ///< those asked for last
    Instant shapesReference_;
    std::size_t oldestShape_ = 0;
    std::size_t shapesKnown_ = 0;
    Coverage hot_;
    Coverage cold_;
    bool hotChanged_ = false;
    bool coldChanged_ = false;
    std::size_t looks_ = 0;
};

}  // namespace midden
