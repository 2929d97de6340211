// SPDX-License-Identifier: GPL-3.0-or-later
// How a fed bin stands, reduced to what its steward looks for. A function of the record and its reckoning.
#pragma once

#include <optional>
#include <string>

#include "core/layers/reckoning.h"
#include "core/records/batch_record.h"
#include "core/review/feeding_advice.h"
#include "core/review/stall.h"

namespace midden {

/// The warmest place of the last round.
struct HottestPlace {
    std::string position;
    Celsius temperature;
    Instant at;
};

/// Layers that lie together at the base.
struct LowestLayers {
    double litres = 0;
    Instant fedFrom;
    Instant fedTo;
    Seconds atLeast;  ///< the least of the raw ones
};

struct FedStatus {
    std::optional<Instant> lastFed;
    std::optional<HottestPlace> hottest;
    /// Of the last thirty days up to that of the last entry, by the clock the batch began with, those on which a place
    /// was read at the target's threshold or above, its thermometer's error held against it.
    int hotDays = 0;
    std::optional<Level> level;         ///< the latest
    std::optional<LowestLayers> ready;  ///< from the base up, all whose longest run reaches the target's hold
    std::optional<LowestLayers> oldest;
    /// When the next feed would be usual: the median of its last ten intervals after the last one. No value before
    /// four feeds.
    std::optional<Instant> feedDue;
    std::vector<Lacking> lacking;
    FeedingAdvice advice;
};

/// `fed` and `reckoning` are of the same record.
FedStatus fedStatusOf(const BatchRecord& record, const FedRecord& fed, const FedReckoning& reckoning,
                      const HoldTarget& target);

/// So many days back.
constexpr int hotDaysLookedAt = 30;

}  // namespace midden
