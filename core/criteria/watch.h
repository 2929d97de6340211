// SPDX-License-Identifier: GPL-3.0-or-later
// The readings a criterion looks at: monitored positions, from the last raw addition on.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/criteria/judgement.h"
#include "core/thermal/overview.h"

namespace midden {

/// A monitored position and its readings since the clock started. It may have none since then.
struct Watched {
    std::string position;
    Overview readings;

    std::span<const Sample> samples() const { return readings.samples(); }
};

struct Watch {
    std::vector<Watched> positions;
    std::optional<Interval> whole;      ///< first to last reading of any of them, before and after the clock started
    std::optional<Instant> clockStart;  ///< the first reading that counts; no value: none does
    std::optional<std::string> restartedBy;
    std::optional<Instant> restartedAt;
};

/// Of any criterion the same. Looks at the samples of `record`.
Watch watchOf(const BatchRecord& record, const Materials& materials);

/// The runs of every step of an alternative, over all positions at once. A step within another has only what lies in
/// a qualifying run of that other.
std::vector<IntervalSet> runsOf(const Alternative& alternative, std::span<const Watched> positions,
                                Allowance allowance);

/// The time a step is judged by: all of it where it adds up, else the longest run.
Seconds judgedTime(const Step& step, const IntervalSet& runs);

}  // namespace midden
