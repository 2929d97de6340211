// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_lines.h"

#include <QLineF>
#include <QPainter>
#include <QPen>
#include <algorithm>
#include <cmath>

#include "ui/chart/dense_line.h"
#include "ui/chart/pixels.h"

namespace midden::ui {

namespace {

/// Where the line can be seen, in the painter's own units.
QRectF seen(const QPainter& painter, const QPolygonF& points, double radius) {
    const QRectF area = points.boundingRect().adjusted(-radius, -radius, radius, radius);
    return painter.hasClipping() ? area & painter.clipBoundingRect() : area;
}

void drawDense(QPainter& painter, const QPolygonF& points, const QPen& pen) {
    const QTransform toDevice = painter.deviceTransform();
    const double radius = pen.widthF() / 2;
    const QRect area = toDevice.mapRect(seen(painter, points, radius)).toAlignedRect();
    const DenseLine line{toDevice.map(points), radius * toDevice.m11(), pen.color()};
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

void drawSolid(QPainter& painter, const QPolygonF& points, QPen pen) {
    if (hasPixels(painter)) {
        drawDense(painter, points, pen);
    } else {
        pen.setStyle(Qt::SolidLine);
        pen.setCapStyle(Qt::RoundCap);
        stroke(painter, points, pen);
    }
}

/// Less than a pixel from one to the next.
bool isDense(QPointF one, QPointF next, double scale) {
    return (next.x() - one.x()) * scale < 1;
}

/// Dashes run on behind dense stretches as if those were not there: how long such a stretch is depends on what was
/// left out of it.
void drawDashed(QPainter& painter, const QPolygonF& points, QPen pen) {
    const double scale = painter.deviceTransform().m11();
    const double offset = pen.dashOffset();
    double length = 0;
    for (qsizetype first = 0; first + 1 < points.size();) {
        const bool dense = isDense(points[first], points[first + 1], scale);
        const qsizetype begin = first;
        double ownLength = 0;
        do {
            ownLength += QLineF{points[first], points[first + 1]}.length();
            ++first;
        } while (first + 1 < points.size() && isDense(points[first], points[first + 1], scale) == dense);
        const QPolygonF part = points.mid(begin, first + 1 - begin);
        if (dense) {
            drawSolid(painter, part, pen);
        } else {
            pen.setDashOffset(offset + length / pen.widthF());
            stroke(painter, part, pen);
            length += ownLength;
        }
    }
}

}  // namespace

void drawTrace(QPainter& painter, const QPolygonF& points, const QPen& pen) {
    if (points.size() < 2) {
        return;
    }
    painter.setBrush(Qt::NoBrush);
    const double scale = painter.deviceTransform().m11();
    const auto meet = [&](QPointF one, QPointF next) { return isDense(one, next, scale); };
    if (std::ranges::adjacent_find(points, meet) == points.end()) {
        stroke(painter, points, pen);
    } else if (pen.style() == Qt::SolidLine) {
        drawSolid(painter, points, pen);
    } else {
        drawDashed(painter, points, pen);
    }
}

}  // namespace midden::ui
