// SPDX-License-Identifier: GPL-3.0-or-later
// About how much a bin must be fed to stay warm.
#pragma once

#include <optional>

namespace midden {

/// What a fed bin loses and what its feed gives. The figures of the heat balance are ours, from published parts: 2.5 MJ
/// per kg of kitchen waste as thrown (1.8 to 3.6), air 2 to 5 times what is needed, half the contents hot (0.3 to 0.7).
struct FeedNeed {
    double wallWattsPerSquareMetreKelvin = 0;  ///< with lid, hatch and joints
    double surfaceSquareMetres = 0;
    double hotShare = 0.5;         ///< of the contents
    double warmerBy = 0;           ///< K, the hot part above the air outside
    double heatPerKilogram = 2.5;  ///< MJ
    double airTimesNeeded = 3;
    double ventShare = 0.101;  ///< of all heat, for each time the air needed; 0.101 at 55 °C and air of 10 °C
};

/// Watts through the walls.
double wallLossWatts(const FeedNeed& need);

/// Kilograms of kitchen waste a week that make up for walls, vent and warming the feed itself. No value when the vent
/// alone takes all the heat there is.
std::optional<double> kilogramsAWeek(const FeedNeed& need);

}  // namespace midden
