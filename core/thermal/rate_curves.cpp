// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/rate_curves.h"

#include <algorithm>
#include <cmath>

namespace midden {

double doublingFactor(Celsius temperature) {
    return std::exp2((temperature.value() - 20) / 10);
}

double haugFactor(Celsius temperature) {
    const double t = temperature.value();
    return std::max(0.0, std::pow(1.066, t - 20) - std::pow(1.21, t - 60));
}

double cardinalFactor(Celsius temperature, const CardinalTemperatures& cardinals) {
    const double t = temperature.value();
    const auto [low, best, high] = cardinals;
    if (t <= low || t >= high) {
        return 0;
    }
    const double above = t - low;
    const double width = best - low;
    return (t - high) * above * above / (width * (width * (t - best) - (best - high) * (best + low - 2 * t)));
}

}  // namespace midden
