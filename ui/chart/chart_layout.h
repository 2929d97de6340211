// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFont>
#include <QPointF>
#include <QRectF>
#include <vector>

#include "ui/chart/chart_plan.h"

namespace midden::ui {

/// Where the parts of the picture lie.
struct ChartLayout {
    QRectF legend;
    QRectF plot;
    QRectF timeLabels;
    QRectF heat;    ///< empty where there is none, or no room for it
    QRectF stalls;  ///< empty when there are none
    QRectF lane;    ///< empty when there is nothing in it
    std::vector<QRectF> strips;
    Interval visible;
    double lowestCelsius = 0;
    double highestCelsius = 1;

    double xOf(Instant at) const;
    double yOf(double celsius) const;
    /// Clamped to the visible stretch.
    Instant instantAt(double x) const;
};

ChartLayout layoutOf(const ChartPlan& plan, const QFont& font, QSizeF size);

}  // namespace midden::ui
