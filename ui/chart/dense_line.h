// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QImage>
#include <QPolygonF>

namespace midden::ui {

/// Stroking takes its time over a line that goes up and down many times in each pixel column. This gives the same ink
/// for a small part of it: what the line reaches in each fifteenth of a column, made as wide as the pen, and added up.
struct DenseLine {
    QPolygonF points;   ///< from left to right, in device pixels
    double radius = 1;  ///< of a round pen
    QColor colour;

    /// Its pixels inside an area, which lies on whole pixels; transparent elsewhere.
    QImage drawnIn(const QRect& area) const;
};

}  // namespace midden::ui
