// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/records/batch_record.h"

namespace midden {

/// One visit to the bin: its readings within a set time of the first, seen by the warmest of them.
struct Round {
    Instant at;  ///< when the warmest was read; the earliest of several equally warm
    Celsius warmest;
};

/// All inside positions take part, spot checks too. A reading exactly `window` after the round's first is still in it.
std::vector<Round> roundsOf(const BatchRecord& record, Seconds window);

/// The batch's last entry of any kind; outside air is an entry of the site, not of the batch.
/// Its start when nothing has been entered yet.
Instant lastEntryOf(const BatchRecord& record);

/// The first addition, or the batch's start when nothing was ever added.
Instant fillingOf(const BatchRecord& record);

}  // namespace midden
