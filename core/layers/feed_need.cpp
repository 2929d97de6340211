// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/feed_need.h"

namespace midden {

double wallLossWatts(const FeedNeed& need) {
    return need.wallWattsPerSquareMetreKelvin * need.surfaceSquareMetres * need.hotShare * need.warmerBy;
}

std::optional<double> kilogramsAWeek(const FeedNeed& need) {
    constexpr double megajoulesAWeekPerWatt = 0.6048;
    constexpr double megajoulesPerKilogramKelvin = 0.0036;
    const double left =
        need.heatPerKilogram * (1 - need.ventShare * need.airTimesNeeded) - megajoulesPerKilogramKelvin * need.warmerBy;
    if (!(left > 0)) {
        return std::nullopt;
    }
    return megajoulesAWeekPerWatt * wallLossWatts(need) / left;
}

}  // namespace midden
