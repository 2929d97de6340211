// SPDX-License-Identifier: GPL-3.0-or-later
// How what was fed shrinks, and what a measured level says of it.
#pragma once

#include <cstdint>
#include <optional>

#include "core/layers/rules.h"

namespace midden {

/// The share of its loose volume that is left after `days`: lasting + (1 − lasting)·e^(−days/shrinkDays).
double shareLeft(double days, double lasting, double shrinkDays);

/// e^(−time/shrinkDays), for each way of shrinking.
std::array<double, shrinkModels> decayOver(Seconds time, const LayerRules& rules);

/// Of some or all that is in a bin: the loose litres that are still there, Σ V·φ, and for each way of shrinking the
/// part of them that is yet to go, Σ V·φ·e^(−age/k).
struct Litres {
    double loose = 0;
    std::array<double, shrinkModels> ageing{};
};

/// What the latest level says of each way of shrinking.
struct Fit {
    std::optional<Instant> level;  ///< when it was measured; none yet: the usual shares, and none is kept
    std::array<double, shrinkModels> lasting{};
    std::uint8_t kept = 0;  ///< a bit for each way of shrinking that agrees with the level

    bool keeps(std::size_t model) const { return ((kept >> model) & 1U) != 0; }
};

/// Before any level.
Fit usualFit(const LayerRules& rules);

/// After a level: `litres` stand in the bin, of what `there` was when it was loose. What asks for too little or too
/// much to last is brought back to the nearest that is thought possible, and not kept. Where nothing has aged yet a
/// level says nothing: the shares stay as they were, and none is kept.
Fit fitted(const Fit& before, Instant at, double litres, const Litres& there, const LayerRules& rules);

/// The one of the kept ways of shrinking that a harvest goes by: of three the middle one, of two the longer; none: the
/// middle one.
std::size_t middleKept(const Fit& fit);

}  // namespace midden
