// SPDX-License-Identifier: GPL-3.0-or-later
// Many readings on few pixels: what is left out must not be missed.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "core/records/batch_record.h"
#include "core/thermal/interval.h"

namespace midden::ui {

/// The coldest and warmest reading of every block of 16, of every 16 blocks, and so on: lets a picture of ten
/// million readings be thinned without looking at each. Takes a sixteenth of the room of the samples, of which it keeps
/// a view, not a copy.
class Overview {
  public:
    explicit Overview(std::span<const Sample> samples);
    std::span<const Sample> samples() const { return samples_; }

    struct Extremes {
        std::size_t coldest = 0;
        std::size_t warmest = 0;
    };
    /// Of samples [first, last); the range may not be empty. The earliest wins among equals.
    Extremes extremes(std::size_t first, std::size_t last) const;

  private:
    /// With the temperatures themselves, so that the samples need not be looked up.
    struct Block {
        std::uint32_t coldest = 0;
        std::uint32_t warmest = 0;
        std::int32_t least = 0;  ///< parts of a degree
        std::int32_t most = 0;
    };
    static Block blockOf(std::span<const Sample> samples, std::size_t index);
    static void widen(Block& block, const Block& by);

    std::span<const Sample> samples_;
    std::vector<std::vector<Block>> levels_;
};

/// Which samples to draw: of each of `columns` equal parts of `visible` the first, coldest, warmest and last, in time
/// order, and one neighbour on either side so that lines run on to the edge. With no more than four samples in every
/// part nothing is left out. Indexes into the overview's samples.
std::vector<std::size_t> thinned(const Overview& overview, Interval visible, std::size_t columns);

}  // namespace midden::ui
