// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_canvas.h"

#include <QFontMetricsF>
#include <QPainterPath>

namespace midden::ui {

namespace {

QPainterPath feedShape() {
    QPainterPath path;
    path.addPolygon(QPolygonF{{QPointF{0, -2}, QPointF{-3.6, -9}, QPointF{3.6, -9}}});
    path.closeSubpath();
    return path;
}

QPainterPath levelShape() {
    QPainterPath path;
    path.addPolygon(QPolygonF{{QPointF{0, -4}, QPointF{4, 0}, QPointF{0, 4}, QPointF{-4, 0}}});
    path.closeSubpath();
    return path;
}

QPainterPath takenShape() {
    QPainterPath path;
    path.addPolygon(QPolygonF{{QPointF{0, 13}, QPointF{-4, 6}, QPointF{4, 6}}});
    path.closeSubpath();
    path.addRect(QRectF{-0.8, 1, 1.6, 6});
    return path;
}

}  // namespace

void write(const LayersCanvas& canvas, const QRectF& box, int flags, const QString& text, const QColor& colour) {
    const int scale = canvas.dress.letterScale;
    QFont font = canvas.dress.font;
    font.setPixelSize(font.pixelSize() * scale);
    canvas.painter.save();
    canvas.painter.translate(box.topLeft());
    canvas.painter.scale(1.0 / scale, 1.0 / scale);
    canvas.painter.setFont(font);
    canvas.painter.setPen(colour);
    canvas.painter.drawText(QRectF{QPointF{}, box.size() * scale}, flags | Qt::TextDontClip | Qt::TextSingleLine, text);
    canvas.painter.restore();
}

void writeOnPatch(const LayersCanvas& canvas, QPointF centre, const QString& text) {
    const QFontMetricsF metrics{canvas.dress.font};
    QRectF patch{0, 0, metrics.horizontalAdvance(text) + 6, metrics.height() - 1};
    patch.moveCenter(centre);
    canvas.painter.fillRect(patch, canvas.palette().ground);
    write(canvas, patch, Qt::AlignCenter, text, canvas.palette().text);
}

void paintMark(const LayersCanvas& canvas, EventKind kind, QPointF place) {
    QPainter& painter = canvas.painter;
    switch (kind) {
        case EventKind::feed:
            painter.setPen(QPen{canvas.palette().ground, 0.8});
            painter.setBrush(canvas.palette().text);
            painter.drawPath(feedShape().translated(place));
            break;
        case EventKind::level:
            painter.setPen(QPen{canvas.palette().text, 1.2});
            painter.setBrush(canvas.palette().ground);
            painter.drawPath(levelShape().translated(place));
            break;
        case EventKind::drawn:
            painter.setPen(Qt::NoPen);
            painter.setBrush(canvas.palette().text);
            painter.drawPath(takenShape().translated(place));
            break;
        case EventKind::turned:
        case EventKind::forked:
            break;
    }
}

}  // namespace midden::ui
