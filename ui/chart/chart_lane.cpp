// SPDX-License-Identifier: GPL-3.0-or-later
// Under the axis: stalls, the lane of entries, and the criteria's strips.
#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>

#include "ui/chart/chart_layers.h"

namespace midden::ui {

namespace {

void paintStall(const ChartCanvas& canvas, const ChartStall& stall) {
    const QRectF row = canvas.layout.stalls;
    const double left = std::max(row.left(), canvas.layout.xOf(stall.interval.from));
    const double right = std::min(row.right(), canvas.layout.xOf(stall.interval.to));
    const double top = row.top() + 3;
    QPainter& painter = canvas.painter;
    painter.setPen(QPen{canvas.dress.palette.text, 1.2});
    painter.drawLine(QPointF{left, top + 5}, QPointF{right, top + 5});
    painter.drawLine(QPointF{left, top}, QPointF{left, top + 5});
    if (!stall.open) {
        painter.drawLine(QPointF{right, top}, QPointF{right, top + 5});
    }
    const double width = QFontMetricsF{canvas.dress.font}.horizontalAdvance(stall.word) + 2;
    const double middle = (left + right) / 2;
    const double start = std::clamp(middle - width / 2, row.left(), std::max(row.left(), row.right() - width));
    painter.drawText(QRectF{start, top + 5, width, row.bottom() - top - 5}, Qt::AlignCenter, stall.word);
}

void paintLane(const ChartCanvas& canvas) {
    const QRectF lane = canvas.layout.lane;
    const double line = QFontMetricsF{canvas.dress.font}.height();
    QPainter& painter = canvas.painter;
    for (const ChartMark& mark : canvas.plan.marks) {
        const double x = canvas.layout.xOf(mark.at);
        paintGlyph(painter, {x, lane.top() + 10}, mark.kind, canvas.dress.palette);
        painter.setPen(canvas.dress.palette.muted);
        const double top = lane.top() + 20 + mark.row * line;
        const double width = QFontMetricsF{canvas.dress.font}.horizontalAdvance(mark.label) + 2;
        painter.drawText(QRectF{lane.left() + mark.labelLeft, top, width, line}, Qt::AlignLeft | Qt::AlignVCenter,
                         mark.label);
    }
}

void paintStrip(const ChartCanvas& canvas, const ChartStrip& strip, const QRectF& row) {
    QPainter& painter = canvas.painter;
    const QFontMetricsF metrics{canvas.dress.font};
    const QRectF words{row.left(), row.top() + 2, row.width(), metrics.height()};
    const double figuresWidth = metrics.horizontalAdvance(strip.figures);
    painter.setPen(canvas.dress.palette.text);
    painter.drawText(words, Qt::AlignRight | Qt::AlignVCenter, strip.figures);
    painter.drawText(words, Qt::AlignLeft | Qt::AlignVCenter,
                     metrics.elidedText(strip.title, Qt::ElideRight, row.width() - figuresWidth - 20));
    const QRectF bar{row.left(), words.bottom() + 2, row.width(), 8};
    const auto across = [&](const Interval& piece) {
        const double left = std::max(bar.left(), canvas.layout.xOf(piece.from));
        const double right = std::min(bar.right(), canvas.layout.xOf(piece.to));
        return QRectF{left, bar.top(), std::max(0.0, right - left), bar.height()};
    };
    painter.setPen(Qt::NoPen);
    painter.setBrush(canvas.dress.palette.hairline);
    for (const Interval& piece : strip.refused) {
        painter.drawRect(across(piece).adjusted(0, 3, 0, -3));
    }
    painter.setBrush(canvas.dress.palette.accent);
    for (const Interval& piece : strip.credited) {
        painter.drawRect(across(piece));
    }
}

}  // namespace

void paintGlyph(QPainter& painter, QPointF centre, LaneKind kind, const Palette& palette) {
    painter.save();
    painter.translate(centre);
    painter.setPen(QPen{palette.text, 1.3});
    painter.setBrush(kind == LaneKind::rawAddition ? QBrush{palette.text} : QBrush{palette.ground});
    switch (kind) {
        case LaneKind::addition:
        case LaneKind::rawAddition:  // something falls in
            painter.drawPolygon(QPolygonF{{QPointF{-5, -4}, QPointF{5, -4}, QPointF{0, 5}}});
            break;
        case LaneKind::aeration: {  // a turn
            QPainterPath path;
            path.arcMoveTo(QRectF{-5, -5, 10, 10}, 60);
            path.arcTo(QRectF{-5, -5, 10, 10}, 60, 270);
            painter.setBrush(Qt::NoBrush);
            painter.drawPath(path);
            painter.drawLine(QPointF{5, 0}, QPointF{2, -1.5});
            painter.drawLine(QPointF{5, 0}, QPointF{7, -2.5});
            break;
        }
        case LaneKind::watering: {  // a drop
            QPainterPath path{QPointF{0, -6}};
            path.cubicTo(QPointF{1, -3}, QPointF{4.5, -1}, QPointF{4.5, 1.5});
            path.cubicTo(QPointF{4.5, 6.5}, QPointF{-4.5, 6.5}, QPointF{-4.5, 1.5});
            path.cubicTo(QPointF{-4.5, -1}, QPointF{-1, -3}, QPointF{0, -6});
            painter.drawPath(path);
            break;
        }
        case LaneKind::observation:  // a written line
            painter.drawRect(QRectF{-4.5, -5, 9, 10});
            painter.drawLine(QPointF{-2, -1.5}, QPointF{2, -1.5});
            painter.drawLine(QPointF{-2, 1.5}, QPointF{2, 1.5});
            break;
    }
    painter.restore();
}

void paintUnderTheAxis(const ChartCanvas& canvas) {
    for (const ChartStall& stall : canvas.plan.stalls) {
        paintStall(canvas, stall);
    }
    paintLane(canvas);
    for (std::size_t i = 0; i < canvas.plan.strips.size(); ++i) {
        paintStrip(canvas, canvas.plan.strips[i], canvas.layout.strips[i]);
    }
}

}  // namespace midden::ui
