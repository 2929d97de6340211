// SPDX-License-Identifier: GPL-3.0-or-later
// Many readings on few pixels: what is left out must not be missed.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "core/records/batch_record.h"
#include "core/thermal/interval.h"

namespace midden::ui {

/// The coldest and warmest reading of every block of 16, of every 16 blocks, and so on: lets a picture of ten
/// million readings be decimated without looking at each. Takes a sixteenth of the room of the samples, of which it
/// keeps a view, not a copy.
class MinMaxPyramid {
  public:
    explicit MinMaxPyramid(std::span<const Sample> samples);
    std::span<const Sample> samples() const { return samples_; }

    struct Extremes {
        std::size_t coldest = 0;
        std::size_t warmest = 0;
    };
    /// Of samples [first, last); the range may not be empty. The earliest wins among equals.
    Extremes extremes(std::size_t first, std::size_t last) const;
    /// A range will soon begin about there. Among millions of readings, looking is mostly waiting for memory: this
    /// begins to fetch it.
    void expect(std::size_t index) const;

  private:
    /// Parts of a degree and a place in one number, the degrees weighing more: the coldest is the least such number,
    /// the warmest the greatest, and among equals the earliest wins. Samples need not be looked up, nor places
    /// compared.
    struct Block {
        std::int64_t coldest = std::numeric_limits<std::int64_t>::max();
        std::int64_t warmest = std::numeric_limits<std::int64_t>::min();

        void take(const Block& other) {
            coldest = std::min(coldest, other.coldest);
            warmest = std::max(warmest, other.warmest);
        }
        bool reachesBeyond(const Block& other) const { return coldest < other.coldest || warmest > other.warmest; }
    };
    Block overSamples(std::size_t first, std::size_t last) const;
    Block over(std::size_t level, std::size_t first, std::size_t last) const;
    void takeEdge(Block& found, std::size_t level, std::size_t first, std::size_t last) const;

    std::span<const Sample> samples_;
    std::vector<std::vector<Block>> levels_;  ///< the first one of 16 samples a block
};

/// Which samples to draw: of each of `columns` equal parts of `visible` the first, coldest, warmest and last, in time
/// order, and one neighbour on either side so that lines run on to the edge. With no more than four samples in every
/// part nothing is left out. Indexes into the overview's samples.
std::vector<std::size_t> decimated(const MinMaxPyramid& pyramid, Interval visible, std::size_t columns);

}  // namespace midden::ui
