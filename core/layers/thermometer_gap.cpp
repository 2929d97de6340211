// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/thermometer_gap.h"

#include <algorithm>

namespace midden {

std::optional<ThermometerGap> widestGap(std::vector<double> heightsCm, double surfaceCm, const LayerRules& rules) {
    std::erase_if(heightsCm, [&](double height) { return height > surfaceCm; });
    std::sort(heightsCm.begin(), heightsCm.end());
    if (heightsCm.size() == 1) {
        heightsCm.push_back(surfaceCm);
    }
    std::optional<ThermometerGap> widest;
    for (std::size_t i = 1; i < heightsCm.size(); ++i) {
        const double from = heightsCm[i - 1];
        const double gap = heightsCm[i] - from;
        const double most = rules.farthestPairCm;
        if (gap > most + 1e-9 && (!widest || gap > widest->toCm - widest->fromCm)) {
            widest = ThermometerGap{from, heightsCm[i], from + std::min(gap / 2, most)};
        }
    }
    return widest;
}

}  // namespace midden
