// SPDX-License-Identifier: GPL-3.0-or-later
// The heat a bin made, under its temperatures, and where the next round is likely to find it.
#pragma once

#include <QString>
#include <vector>

#include "core/thermal/interval.h"

namespace midden::ui {

struct ChartTick;

/// Between two rounds, in the view's degrees per hour.
struct ChartHeatStep {
    Interval interval;
    double rate = 0;
    double low = 0;
    double high = 0;
};

/// The panel under the time axis; no steps: there is none.
struct ChartHeat {
    std::vector<ChartHeatStep> steps;
    double lowest = 0;   ///< bottom of its scale
    double highest = 1;  ///< top of its scale
    double tick = 1;     ///< between two of its lines
    int decimals = 0;    ///< of their numbers
    QString caption;
};

/// A band, never a line: its width is the error the same reckoning made on the rounds before.
struct ChartForecast {
    Instant from;
    double celsius = 0;
    Instant at;
    double low = 0;   ///< °C
    double high = 0;  ///< °C
};

struct ChartCanvas;
void paintHeat(const ChartCanvas& canvas);
void paintForecast(const ChartCanvas& canvas);

}  // namespace midden::ui
