// SPDX-License-Identifier: GPL-3.0-or-later
// Which batch a reading belongs to: the one that stands in its bin at that instant.
#pragma once

#include "core/store/sqlite/database.h"

namespace midden {

/// A batch's time in a bin: the readings of that bin at from <= t < until are its own.
struct Occupancy {
    BatchId batch{};
    BinId bin{};
    /// As its stay says, but the first stay of a batch whose start nobody gave reaches back to when the bin was free:
    /// an earlier reading there moves the start.
    Instant from;
    Instant until;  ///< its next stay, another batch's stay in the bin, or just after its finish
    Instant since;  ///< of its stay
};

/// In time order; they never overlap. Of two batches that come to the bin at one instant, as may be where copies of a
/// book are merged, the one whose name is first has it, and the other an empty time.
std::vector<Occupancy> occupanciesIn(DatabaseFile& file, BinId bin);
/// In time order.
std::vector<Occupancy> occupanciesOf(DatabaseFile& file, BatchId batch);

/// Is there an entry of the batch strictly between the two: a reading of this occupancy's bin, or an addition,
/// aeration, observation or harvest of the batch?
bool hasEntriesBetween(DatabaseFile& file, const Occupancy& occupancy, Instant after, Instant before);

/// The earliest reading inside that bin at from <= t < until.
std::optional<Instant> earliestReading(DatabaseFile& file, BinId bin, Instant from, Instant until);

}  // namespace midden
