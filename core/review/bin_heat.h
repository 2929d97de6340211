// SPDX-License-Identifier: GPL-3.0-or-later
// The heat balance of one batch.
#pragma once

#include <vector>

#include "core/review/rounds.h"
#include "core/review/stall.h"
#include "core/thermal/heat_balance.h"
#include "core/thermal/interval.h"

namespace midden {

/// The warmest of each round against the air outside: what History draws under the temperatures.
struct BinHeat {
    HeatSeries series;
    TimeConstant tau;
    std::vector<HeatRate> rates;  ///< in time order; empty without outside temperatures
    std::string limits;           ///< what the balance leaves out, and what of the air is in it
};

/// τ from the batch's own cool-downs, else from the bin's wall, else assumed.
BinHeat heatOf(const BatchRecord& record, const std::vector<Round>& rounds);

/// What the balance says of the time from `stall.from` to `end`, compared with the four days before it.
StallHeat heatDuring(const BinHeat& heat, const Stall& stall, Instant end);

/// "τ is about 60 h (41 to 67), from a cool-down of 8 readings": where τ comes from, in words.
std::string wordsOf(const TimeConstant& tau);

/// "It warms itself by about 0.52 °C per hour (0.31 to 0.73), were nothing lost": the latest rate, in words; empty
/// without outside temperatures near enough.
std::string wordsOf(const BinHeat& heat);

/// What the balance of this bin leaves out, how large the air's part is or can be, and whether it is in; to stand
/// beside every figure taken from it.
std::string heatBalanceLimits(const Bin& bin, TauBasis basis);

}  // namespace midden
