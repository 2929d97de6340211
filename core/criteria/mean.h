// SPDX-License-Identifier: GPL-3.0-or-later
// The average temperature a rule asks for over a credited run.
#pragma once

#include "core/criteria/judged_readings.h"

namespace midden {

/// A part of one of the runs, between two readings and long enough for the step, over which every position's
/// time-weighted average reaches what the step asks. No value when there is none. The step must ask for a mean.
std::optional<Interval> partReachingMean(const Step& step, const IntervalSet& runs,
                                         std::span<const Monitored> positions, Allowance allowance);

/// The lowest of the positions' time-weighted averages, as read. `over` must be credited for every position.
MeanFigures lowestMean(Interval over, std::span<const Monitored> positions);

}  // namespace midden
