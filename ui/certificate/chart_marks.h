// SPDX-License-Identifier: GPL-3.0-or-later
// Marks of the printed chart: positions are told apart by colour, dash and mark together.
#pragma once

#include <QColor>
#include <QPen>

#include "ui/certificate/chart_frame.h"

namespace midden::ui {

enum class PaperMark { none, dot, square, triangle, diamond };

struct PaperTrace {
    QColor colour;
    Qt::PenStyle dash = Qt::SolidLine;
    PaperMark mark = PaperMark::dot;
    double width = 0;

    QPen pen() const;
};

/// The core first, then by name: the same looks as on the screen.
std::vector<const Track*> tracksInOrder(const BatchRecord& record);
/// The look of the n-th position. Beyond the fourth the dashes change, so that no two of sixteen are alike.
PaperTrace paperTrace(std::size_t n);
void drawMark(QPainter& painter, QPointF centre, const PaperTrace& look);

/// Positions and marks by name, over the plot, on as many lines as it takes. Returns the height used.
double drawChartLegend(QPainter& painter, const QRectF& target, const BatchRecord& record);

/// Under the dates: additions, air and water, stalls.
double laneHeight(const BatchReview& review);
void drawLanes(QPainter& painter, const ChartFrame& frame, const PaperChart& chart);

}  // namespace midden::ui
