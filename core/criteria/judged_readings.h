// SPDX-License-Identifier: GPL-3.0-or-later
// The readings a criterion looks at: monitored positions, from the last raw addition on.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "core/criteria/judgement.h"

namespace midden {

struct JudgedReadings {
    std::vector<Monitored> positions;   ///< with their readings since the clock started; there may be none since then
    std::optional<Interval> whole;      ///< first to last reading of any of them, before and after the clock started
    std::optional<Instant> clockStart;  ///< the first reading that counts; no value: none does
    std::optional<std::string> restartedBy;
    std::optional<Instant> restartedAt;
};

/// For every criterion the same. `positions` are the record's own, with all their readings.
JudgedReadings judgedReadingsOf(const BatchRecord& record, std::vector<Monitored> positions,
                                const Materials& materials);

/// The runs of every step of an alternative, over all positions at once. A step within another has only what lies in
/// a qualifying run of that other.
std::vector<IntervalSet> runsOf(const Alternative& alternative, std::span<const Monitored> positions,
                                Allowance allowance);

/// The days on which every position had at least one reading within the limits, as read. A day is one by a clock so
/// far from UTC.
std::int64_t daysWithin(const Limits& limits, std::span<const Monitored> positions, UtcOffset clock);

/// The time a step is judged by: all of it where it adds up, else the longest run.
Seconds judgedTime(const Step& step, const IntervalSet& runs);

}  // namespace midden
