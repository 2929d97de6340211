// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_lines.h"

#include <QLineF>
#include <QPainter>
#include <QPen>
#include <algorithm>
#include <cmath>

#include "ui/chart/crowded_line.h"
#include "ui/chart/pixels.h"

namespace midden::ui {

namespace {

/// Where the line can be seen, in the painter's own units.
QRectF seen(const QPainter& painter, const QPolygonF& points, double radius) {
    const QRectF area = points.boundingRect().adjusted(-radius, -radius, radius, radius);
    return painter.hasClipping() ? area & painter.clipBoundingRect() : area;
}

void drawCrowded(QPainter& painter, const QPolygonF& points, const QPen& pen) {
    const QTransform toDevice = painter.deviceTransform();
    const double radius = pen.widthF() / 2;
    const QRect area = toDevice.mapRect(seen(painter, points, radius)).toAlignedRect();
    const CrowdedLine line{toDevice.map(points), radius * toDevice.m11(), pen.color()};
    painter.drawImage(toDevice.inverted().mapRect(QRectF{area}), line.drawnIn(area));
}

/// The part of a line about a stretch of it, and how long the line is up to there.
class Walk {
  public:
    explicit Walk(const QPolygonF& points) : points_{points} {}

    /// Stretches come from left to right.
    QPolygonF about(double left, double right) {
        while (first_ + 1 < points_.size() && points_[first_ + 1].x() < left) {
            length_ += QLineF{points_[first_], points_[first_ + 1]}.length();
            ++first_;
        }
        qsizetype last = first_ + 1;
        while (last < points_.size() && points_[last].x() <= right) {
            ++last;
        }
        return points_.mid(first_, last + 1 - first_);
    }
    double lengthBefore() const { return length_; }

  private:
    const QPolygonF& points_;
    qsizetype first_ = 0;
    double length_ = 0;
};

/// Upright strip by upright strip: Qt fills what is stroked row by row, and takes the square of the time over a row in
/// which much lies.
void stroke(QPainter& painter, const QPolygonF& points, const QPen& pen) {
    constexpr double stripWidth = 48;
    const double reach = 2 * pen.widthF();
    const QRectF area = seen(painter, points, reach);
    Walk walk{points};
    // Strips meet on whole pixels, at whatever scale.
    const auto first = static_cast<int>(std::floor(area.left() / stripWidth));
    const auto last = static_cast<int>(std::ceil(area.right() / stripWidth));
    for (int strip = first; strip < last; ++strip) {
        const double left = strip * stripWidth;
        const QPolygonF part = walk.about(left - reach, left + stripWidth + reach);
        QPen ink{pen};
        if (pen.style() == Qt::CustomDashLine) {
            ink.setDashOffset(pen.dashOffset() + walk.lengthBefore() / pen.widthF());
        }
        painter.save();
        painter.setClipRect(QRectF{left, area.top() - 1, stripWidth, area.height() + 2}, Qt::IntersectClip);
        painter.setPen(ink);
        painter.drawPolyline(part);
        painter.restore();
    }
}

}  // namespace

void drawTrace(QPainter& painter, const QPolygonF& points, const QPen& pen) {
    if (points.size() < 2) {
        return;
    }
    painter.setBrush(Qt::NoBrush);
    const double columns = (points.back().x() - points.front().x()) * painter.deviceTransform().m11();
    const bool isCrowded = static_cast<double>(points.size()) > columns;
    if (isCrowded && hasPixels(painter)) {
        drawCrowded(painter, points, pen);
        return;
    }
    QPen ink{pen};
    if (isCrowded) {
        ink.setStyle(Qt::SolidLine);
    }
    stroke(painter, points, ink);
}

}  // namespace midden::ui
