// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

namespace midden {

/// What several materials make together.
struct Mixture {
    double wetMassKilograms = 0;
    std::optional<double> moisturePercent;  ///< of the wet mass; no value when a material's moisture is unknown
    std::optional<double> carbonNitrogen;   ///< by mass; no value without nitrogen, or when a material's is unknown
};

}  // namespace midden
