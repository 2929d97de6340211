// SPDX-License-Identifier: GPL-3.0-or-later
// A rule looks at each reading only where that can matter.
#pragma once

#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "core/records/batch_record.h"

namespace midden {

/// What some readings, one after the other, have in common.
struct Extremes {
    Celsius lowest;
    Celsius highest;
    Kelvins mostAllowance;
    Seconds longestGap;  ///< between two of them
};

/// The readings of one position, and the extremes of every so many intervals between them. A logger's readings stay
/// on one side of a limit for hours, so that whole blocks are in or out at a glance. Looks at readings that live
/// elsewhere.
class BlockExtremes {
  public:
    /// Of so many intervals each block is made, the last of what is left.
    static constexpr std::size_t blockLength = 128;

    BlockExtremes() = default;
    explicit BlockExtremes(std::span<const Sample> samples);

    std::span<const Sample> samples() const { return samples_; }
    std::size_t blocks() const { return blocks_.size(); }
    const Extremes& extremes(std::size_t block) const { return blocks_[block]; }
    /// The readings at the ends of the block's intervals: its last reading is the next block's first.
    std::span<const Sample> samplesOf(std::size_t block) const {
        const auto first = block * blockLength;
        return samples_.subspan(first, std::min(blockLength + 1, samples_.size() - first));
    }

    /// The extremes of some of its readings, at least one: of number `first` and those after it, `count` in all.
    Extremes extremesOf(std::size_t first, std::size_t count) const;

  private:
    std::span<const Sample> samples_;
    std::vector<Extremes> blocks_;
};

/// A monitored position and some or all of its readings.
struct Monitored {
    std::string position;
    BlockExtremes readings;

    std::span<const Sample> samples() const { return readings.samples(); }
};

/// Every monitored position of a batch with all its readings, which stay where they are: in the record.
std::vector<Monitored> monitoredPositions(const BatchRecord& record);

}  // namespace midden
