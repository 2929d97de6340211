// SPDX-License-Identifier: GPL-3.0-or-later
// How fast compost is said to work at a temperature. Teaching figures, all three: they disagree with each other above
// 65 °C, and Hamelers' review of composting models holds that the sensitivity itself changes during the process.
// Never a verdict.
#pragma once

#include "core/quantities/temperature.h"

namespace midden {

/// Rate doubling per 10 °C, 1 at 20 °C. Common practice, no source; holds from about 10 to 45 °C, never past 55 °C.
double doublingFactor(Celsius temperature);

/// 1.066^(T−20) − 1.21^(T−60), from 10 to 75 °C; 0 where it turns negative, near 80 °C. Haug, "The Practical Handbook
/// of Compost Engineering", 1993; from memory, unverified. Not exactly 1 at 20 °C.
double haugFactor(Celsius temperature);

/// Where an organism stops, thrives and stops again.
struct CardinalTemperatures {
    double minimum = 5;
    double optimum = 58.6;
    double maximum = 71.6;
};
/// Those given for composting: Richard & Walker 2006, from memory, unverified.
constexpr CardinalTemperatures compostCardinals{};

/// The cardinal temperature model with inflection, 0 … 1. Rosso, Lobry & Flandrois 1993, J. Theor. Biol. 162:447–463;
/// the formula as in the R package rTPC, rosso_1993. Needs optimum > (minimum + maximum)/2.
double cardinalFactor(Celsius temperature, const CardinalTemperatures& cardinals = compostCardinals);

}  // namespace midden
