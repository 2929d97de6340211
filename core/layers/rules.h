// SPDX-License-Identifier: GPL-3.0-or-later
// What the reckoning of a fed bin takes for granted. All of it is ours: no source gives volume against age, or how far
// a thermometer speaks, in a bin that is fed on top. What is known, and how wide the bands are, stands beside each.
#pragma once

#include <array>
#include <cstddef>

#include "core/criteria/gap_rule.h"
#include "core/quantities/time.h"

namespace midden {

/// Three ways of shrinking are reckoned side by side.
constexpr std::size_t shrinkModels = 3;

struct LayerRules {
    /// Days in which what can be lost falls to 1/e. Hot (mostly 50 °C and above) 8 to 15 days, warm 15 to 30, cool 30
    /// to 90. Reckoned by us as a third of the time after which published trials found the loss to be over: 56 to 91
    /// days in 200 L bins (Karnchanawong and Suriyanon 2011, Resour Conserv Recycl 55:548; abstract).
    std::array<double, shrinkModels> shrinkDays{10, 20, 40};
    /// The share of the volume that stays, until a level has been measured. Published shares of volume left: 0.20 to
    /// 0.50 (extension leaflets; first pages only).
    double lasting = 0.30;
    /// A way of shrinking that asks for a share outside these does not agree with the level.
    double leastLasting = 0.15;
    double mostLasting = 0.60;

    double sliceCm = 5;                   ///< a feed is cut into slices no thicker than this when loose
    std::size_t mostSlices = 1'000;       ///< of one feed; only a slip of the pen needs more
    Seconds oneFeed = hours(12);          ///< additions within this of the first are one feed
    Seconds longestGap = ordinaryMaxGap;  ///< between two readings that are to show anything
    Seconds levelHolds = days(14);        ///< so long after a level the heights are trusted
    double farthestReachCm = 10;          ///< a thermometer never speaks for more than this above and below it
    /// How much cooler it may be a centimetre away. 0.66 to 1.1 °C were reported of the outer edge of stacks
    /// (Washington State University, Compost Fundamentals: several °F an inch; snippet).
    double coolingPerCm = 1.0;
    double farthestPairCm = 20;   ///< between two thermometers that together show what lies between them
    double slippedVolume = 1.25;  ///< of the litres taken, what may have been touched
};

}  // namespace midden
