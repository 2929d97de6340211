// SPDX-License-Identifier: GPL-3.0-or-later
// What is painted behind and in front of the lines.
#pragma once

#include "ui/chart/chart_picture.h"

class QPainter;

namespace midden::ui {

/// What the painting functions share.
struct ChartCanvas {
    QPainter& painter;
    const ChartPlan& plan;
    const ChartLayout& layout;
    const ChartDress& dress;
};

/// Credited windows and gaps.
void paintBehind(const ChartCanvas& canvas);
/// Outside air, the threshold and the traces.
void paintLines(const ChartCanvas& canvas);
/// All of these, legend, marks of readings, words, threshold number, lane, stalls, strips.
void paintInFront(const ChartCanvas& canvas);
/// One glyph of the lane, around `centre`.
void paintGlyph(QPainter& painter, QPointF centre, LaneKind kind, const Palette& palette);
/// The lane, the stalls and the strips under the axis.
void paintUnderTheAxis(const ChartCanvas& canvas);

}  // namespace midden::ui
