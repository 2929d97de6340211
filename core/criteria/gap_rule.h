// SPDX-License-Identifier: GPL-3.0-or-later
// How far apart two readings of a position may lie for the time between them to be credited. Our own rule, no
// source: no standard says so for readings by hand.
#pragma once

#include "core/quantities/time.h"

namespace midden {

/// For a hold of `hold`: 36 h where it is 72 h or more, 26 h from 48 h on, half the hold where it is shorter.
Seconds maxGapForHold(Seconds hold);

/// Where no hold is asked for (hours at or above a figure, gaps, teaching equivalents, lines of a picture): as for a
/// hold of 72 h.
constexpr Seconds ordinaryMaxGap = hours(36);

}  // namespace midden
