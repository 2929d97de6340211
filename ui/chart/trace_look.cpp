// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/trace_look.h"

#include <QPolygonF>

namespace midden::ui {

namespace {

/// In widths of the line; a little more open than Qt's own.
QVector<qreal> dashes(Qt::PenStyle style) {
    switch (style) {
        case Qt::DashLine:
            return {5, 2.5};
        case Qt::DotLine:
            return {1.2, 2};
        case Qt::DashDotLine:
            return {5, 2, 1.2, 2};
        default:
            return {};
    }
}

}  // namespace

QPen tracePen(const Palette& palette, std::size_t look) {
    QPen pen{palette.trace(look).colour, 1.8};
    pen.setJoinStyle(Qt::RoundJoin);
    const QVector<qreal> pattern = dashes(palette.trace(look + look / palette.traces.size()).dash);
    pen.setCapStyle(pattern.isEmpty() ? Qt::RoundCap : Qt::FlatCap);
    if (!pattern.isEmpty()) {
        pen.setDashPattern(pattern);
    }
    return pen;
}

QPainterPath traceMark(const Palette& palette, std::size_t look) {
    QPainterPath path;
    switch (palette.trace(look).mark) {
        case Mark::dot:
            path.addEllipse(QPointF{}, 3, 3);
            break;
        case Mark::square:
            path.addRect(QRectF{-2.8, -2.8, 5.6, 5.6});
            break;
        case Mark::triangle:
            path.addPolygon(QPolygonF{{QPointF{0, -3.8}, QPointF{3.6, 2.8}, QPointF{-3.6, 2.8}}});
            path.closeSubpath();
            break;
        case Mark::diamond:
            path.addPolygon(QPolygonF{{QPointF{0, -4}, QPointF{4, 0}, QPointF{0, 4}, QPointF{-4, 0}}});
            path.closeSubpath();
            break;
    }
    return path;
}

}  // namespace midden::ui
