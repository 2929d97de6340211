// SPDX-License-Identifier: GPL-3.0-or-later
#include <QFontMetricsF>
#include <algorithm>

#include "ui/chart/trace_look.h"
#include "ui/layers/layers_canvas.h"

namespace midden::ui {

void paintCut(const LayersCanvas& canvas) {
    QPainter& painter = canvas.painter;
    const auto& plan = canvas.plan;
    const QRectF cut = plan.layout.cut;
    const double line = QFontMetricsF{canvas.dress.font}.height();
    write(canvas, {cut.left() - 20, cut.top() - line - 4, cut.width() + 40, line}, Qt::AlignCenter, plan.cutTitle,
          canvas.palette().text);
    for (const LayersCut& part : plan.cut) {
        painter.fillRect(part.area, canvas.fill(part.tone));
    }
    painter.setPen(QPen{canvas.dress.seam, 0.8});
    for (const double y : plan.cutSeams) {
        painter.drawLine(QPointF{cut.left(), y}, QPointF{cut.right(), y});
    }
    for (std::size_t i = 1; i < plan.cut.size(); ++i) {
        const auto upper = static_cast<std::size_t>(plan.cut[i].tone);
        const auto lower = static_cast<std::size_t>(plan.cut[i - 1].tone);
        for (std::size_t contour = 0; contour < contourHours.size(); ++contour) {
            const bool isEdge = std::max(upper, lower) < static_cast<std::size_t>(HeatTone::notRaw) &&
                                (upper >= contour + 2) != (lower >= contour + 2);
            if (isEdge) {
                painter.setPen(contourPen(canvas.dress, contourHours.at(contour)));
                painter.drawLine(plan.cut[i].area.bottomLeft(), plan.cut[i].area.bottomRight());
            }
        }
    }
    if (plan.hatchTop) {
        painter.fillRect(QRectF{QPointF{cut.left() - 5, *plan.hatchTop}, QPointF{cut.left(), cut.bottom()}},
                         canvas.palette().edge);
    }
    painter.setPen(QPen{canvas.palette().text, 1.6});
    painter.drawLine(cut.topLeft(), cut.bottomLeft());
    painter.drawLine(cut.topRight(), cut.bottomRight());
    painter.drawLine(cut.bottomLeft(), cut.bottomRight());
    if (!plan.cut.empty()) {
        painter.drawLine(plan.cut.back().area.topLeft(), plan.cut.back().area.topRight());
    }
}

/// After the thermometers, so that no line runs through the words.
void paintCutWords(const LayersCanvas& canvas) {
    QPainter& painter = canvas.painter;
    const auto& plan = canvas.plan;
    const QRectF cut = plan.layout.cut;
    const double line = QFontMetricsF{canvas.dress.font}.height();
    for (const LayersCut& part : plan.cut) {
        if (!part.label.isEmpty()) {
            writeOnPatch(canvas, part.area.center(), part.label);
        }
    }
    if (plan.hatchTop) {
        write(canvas, {cut.left() - 47, *plan.hatchTop - line, 42, line}, Qt::AlignRight | Qt::AlignVCenter,
              plan.hatchLabel, canvas.palette().muted);
    }
    if (plan.bucketTop) {
        const QPolygonF bracket{{cut.left() - 8, *plan.bucketTop},
                                {cut.left() - 13, *plan.bucketTop},
                                {cut.left() - 13, cut.bottom()},
                                {cut.left() - 8, cut.bottom()}};
        painter.setPen(QPen{canvas.palette().text, 1.2});
        painter.setBrush(Qt::NoBrush);
        painter.drawPolyline(bracket);
        paintMark(canvas, EventKind::drawn, {cut.center().x(), cut.bottom()});
        write(canvas, {cut.left(), cut.bottom() + 13, cut.width(), line}, Qt::AlignCenter, plan.bucketLabel,
              canvas.palette().text);
    }
}

void paintNames(const LayersCanvas& canvas) {
    const auto& layout = canvas.plan.layout;
    const QFontMetricsF metrics{canvas.dress.font};
    const double line = metrics.height();
    for (const LayersThermometer& each : canvas.plan.thermometers) {
        const QPointF mark{layout.cut.right() + 8, each.y};
        const double left = layout.names.left() + 12;
        const double width = layout.names.right() - left;
        if (each.isMissing) {
            canvas.painter.setBrush(canvas.palette().ground);
            canvas.painter.setPen(QPen{canvas.palette().question, 1.6, Qt::DotLine});
            canvas.painter.drawEllipse(mark, 4.5, 4.5);
            write(canvas, {left, each.labelY - line / 2, width, line}, Qt::AlignLeft | Qt::AlignVCenter, each.name,
                  canvas.palette().question);
            continue;
        }
        canvas.painter.setPen(QPen{canvas.palette().ground, 1});
        canvas.painter.setBrush(canvas.palette().trace(each.look).colour);
        canvas.painter.drawPath(traceMark(canvas.palette(), each.look).translated(mark));
        const bool isRead = !each.temperature.isEmpty();
        write(canvas, {left, each.labelY - (isRead ? line : line / 2), width, line}, Qt::AlignLeft | Qt::AlignVCenter,
              metrics.elidedText(each.name, Qt::ElideRight, width), canvas.palette().text);
        write(canvas, {left, each.labelY, width, line}, Qt::AlignLeft | Qt::AlignVCenter, each.temperature,
              canvas.palette().trace(each.look).colour);
    }
}

}  // namespace midden::ui
