// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/store/logbook.h"

namespace midden {

/// While a batch stands in a bin: at from <= t < until.
struct PlannedOccupancy {
    Instant from;
    Instant until;
    BatchId batch{};
};

/// Who stands in the bin when, in time order: a stay ends with the batch's next one, with its finish, or when another
/// batch comes. The first stay of a batch whose start nobody gave reaches back to when the bin was free.
std::vector<PlannedOccupancy> batchStaysIn(const std::vector<Batch>& batches, BinId bin);

}  // namespace midden
