// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QFont>
#include <QRectF>
#include <array>

#include "ui/chart/chart_plan.h"

class QPainter;

namespace midden::ui {

/// Every colour of the picture, opaque. Nothing in it is told by colour alone.
struct ChartColours {
    QColor ground;
    QColor text;
    QColor quietText;
    QColor hairline;
    QColor band;      ///< credited time, behind the lines
    QColor hatching;  ///< gaps
    QColor outside;   ///< air temperature
    QColor credited;  ///< in the strips
    QColor refused;   ///< in the strips
    std::array<QColor, 4> traces;

    static ChartColours light();
    static ChartColours dark();
    static ChartColours paper();  ///< light, on white, whatever the desktop looks like
};

/// Draws the whole picture once: legend, plot, axes, lane, stalls and, where the plan has any, strips. Vector
/// throughout and opaque. `target` and the font's pixel size are in the painter's own units.
void paintChart(QPainter& painter, const QRectF& target, const ChartPlan& plan, const ChartColours& colours,
                const QFont& font);

/// How wide the plot will be in a picture this wide: what `ChartView::width` wants.
double plotWidth(double pictureWidth, const QFont& font);

}  // namespace midden::ui
