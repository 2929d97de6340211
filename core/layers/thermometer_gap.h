// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "core/layers/rules.h"

namespace midden {

/// A part of a heap of which no thermometer tells anything.
struct ThermometerGap {
    double fromCm = 0;
    double toCm = 0;
    double helpsAtCm = 0;  ///< where one more thermometer would tell most
};

/// The widest gap between two neighbouring thermometers in the heap, or, where there is one only, between it and the
/// surface. No value: none is wider than two thermometers can be apart to tell what lies between them. Heights in cm
/// above the floor, in any order; those above the surface tell nothing.
std::optional<ThermometerGap> widestGap(std::vector<double> heightsCm, double surfaceCm, const LayerRules& rules = {});

}  // namespace midden
