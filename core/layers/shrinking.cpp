// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/shrinking.h"

#include <algorithm>
#include <cmath>

namespace midden {

namespace {

double inDays(Seconds time) {
    return time.hours() / 24;
}

}  // namespace

double shareLeft(double days, double lasting, double shrinkDays) {
    return lasting + (1 - lasting) * std::exp(-days / shrinkDays);
}

std::array<double, shrinkModels> decayOver(Seconds time, const LayerRules& rules) {
    std::array<double, shrinkModels> decay{};
    for (std::size_t k = 0; k < shrinkModels; ++k) {
        decay[k] = std::exp(-inDays(time) / rules.shrinkDays[k]);
    }
    return decay;
}

Fit usualFit(const LayerRules& rules) {
    Fit fit;
    fit.lasting.fill(rules.lasting);
    return fit;
}

Fit fitted(const Fit& before, Instant at, double litres, const Litres& there, const LayerRules& rules) {
    Fit fit{at, before.lasting, 0};
    for (std::size_t k = 0; k < shrinkModels; ++k) {
        const double aged = there.loose - there.ageing[k];
        if (!(aged > 0)) {
            continue;
        }
        const double asked = (litres - there.ageing[k]) / aged;
        fit.lasting[k] = std::clamp(asked, rules.leastLasting, rules.mostLasting);
        if (asked == fit.lasting[k]) {
            fit.kept = static_cast<std::uint8_t>(fit.kept | (1U << k));
        }
    }
    return fit;
}

std::size_t middleKept(const Fit& fit) {
    const bool shorter = fit.keeps(0);
    const bool middle = fit.keeps(1);
    const bool longer = fit.keeps(2);
    if (longer && !(shorter && middle)) {
        return 2;
    }
    return shorter && !middle && !longer ? 0 : 1;
}

}  // namespace midden
