// SPDX-License-Identifier: GPL-3.0-or-later
// Where the axes are marked and with what words.
#pragma once

#include <vector>

#include "ui/chart/chart_plan.h"

namespace midden::ui {

/// Marks at the book's own local times: hours, midnights, Mondays, firsts of the month, New Years, in the finest step
/// whose labels stand clear of one another. On a day the clocks change midnights stay midnights, an hour that is
/// skipped has no mark, and one that comes twice says its distance from UTC.
std::vector<ChartTick> timeTicks(const ChartView& view);

/// Round numbers of the unit shown, as °C, between two temperatures.
std::vector<ChartTick> temperatureTicks(double lowestCelsius, double highestCelsius, TemperatureUnit unit);

}  // namespace midden::ui
