// SPDX-License-Identifier: GPL-3.0-or-later
// What is worked out pixel by pixel where a painter has pixels, and left to Qt elsewhere.
#pragma once

#include <QColor>
#include <QRectF>
#include <array>
#include <vector>

class QPainter;

namespace midden::ui {

/// Upright and unturned ones.
bool hasPixels(const QPainter& painter);

/// The pixels that lie in an area for more than a half; where there are none, the area itself.
QRectF onWholePixels(const QPainter& painter, const QRectF& area);

/// A colour, premultiplied, by how much of a pixel it covers.
std::array<QRgb, 256> inksOf(const QColor& colour);

struct Stretch {
    double left;
    double right;
};

/// Fills stretches of an area from its top to its bottom, a thousand as fast as one.
void fillStretches(QPainter& painter, const QRectF& area, const std::vector<Stretch>& stretches, const QColor& colour);

}  // namespace midden::ui
