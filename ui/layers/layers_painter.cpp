// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_painter.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "ui/chart/pixels.h"
#include "ui/chart/trace_look.h"
#include "ui/layers/layers_canvas.h"

namespace midden::ui {

namespace {

QString tr(const char* words) {
    return QCoreApplication::translate("LayersPainter", words);
}

void fillArea(const LayersCanvas& canvas, HeatTone tone, const QPolygonF& outline) {
    if (hasPixels(canvas.painter)) {  // each pixel has one tone: nothing shines through between neighbours
        canvas.painter.setRenderHint(QPainter::Antialiasing, false);
        canvas.painter.setPen(Qt::NoPen);
    } else {
        canvas.painter.setPen(QPen{canvas.fill(tone), 0.7});
    }
    canvas.painter.setBrush(canvas.fill(tone));
    canvas.painter.drawPolygon(outline);
    canvas.painter.setRenderHint(QPainter::Antialiasing);
}

void paintAxes(const LayersCanvas& canvas) {
    const auto& layout = canvas.plan.layout;
    const double line = QFontMetricsF{canvas.dress.font}.height();
    for (const LayersTick& tick : canvas.plan.heights) {
        canvas.painter.setPen(QPen{canvas.palette().hairline, 1});
        canvas.painter.drawLine(QPointF{layout.plot.left(), tick.place}, QPointF{layout.plot.right(), tick.place});
        write(canvas, {0, tick.place - line / 2, layout.plot.left() - 6, line}, Qt::AlignRight | Qt::AlignVCenter,
              tick.label, canvas.palette().muted);
    }
    for (const LayersTick& tick : canvas.plan.times) {
        canvas.painter.setPen(QPen{canvas.palette().muted, 1});
        canvas.painter.drawLine(QPointF{tick.place, layout.times.top()}, QPointF{tick.place, layout.times.top() + 4});
        write(canvas, {tick.place - 60, layout.times.top() + 4, 120, line}, Qt::AlignHCenter | Qt::AlignTop, tick.label,
              canvas.palette().muted);
    }
    canvas.painter.setPen(QPen{canvas.palette().muted, 1});
    canvas.painter.drawLine(layout.times.topLeft(), layout.times.topRight());
    write(canvas, {0, layout.plot.top() - line - 4, layout.plot.left() - 6, line}, Qt::AlignRight | Qt::AlignVCenter,
          canvas.plan.unitLabel, canvas.palette().muted);
}

/// A sign and its word, from `right` to the left. Gives where it begins.
double paintSign(const LayersCanvas& canvas, double right, double middle, EventKind kind, const QString& word) {
    const QFontMetricsF metrics{canvas.dress.font};
    const double width = metrics.horizontalAdvance(word);
    write(canvas, {right - width, middle - metrics.height() / 2, width, metrics.height()}, Qt::AlignCenter, word,
          canvas.palette().muted);
    const double drop = kind == EventKind::feed ? 5.5 : kind == EventKind::drawn ? -7 : 0;
    paintMark(canvas, kind, {right - width - 9, middle + drop});
    return right - width - 28;
}

void paintLegend(const LayersCanvas& canvas) {
    const QFontMetricsF metrics{canvas.dress.font};
    const QRectF area = canvas.plan.layout.legend;
    const double line = metrics.height();
    write(canvas, {area.left(), area.top(), area.width(), line}, Qt::AlignLeft | Qt::AlignVCenter, canvas.plan.hotAt,
          canvas.palette().text);
    double right = canvas.plan.layout.plot.right();
    const double least = area.left() + metrics.horizontalAdvance(canvas.plan.hotAt) + 20;
    const std::array signs{std::pair{EventKind::drawn, tr("taken out")}, std::pair{EventKind::level, tr("level")},
                           std::pair{EventKind::feed, tr("fed")}};
    for (const auto& [kind, word] : signs) {
        if (right - metrics.horizontalAdvance(word) - 20 > least) {
            right = paintSign(canvas, right, area.top() + line / 2, kind, word);
        }
    }
    for (const LayersKey& key : canvas.plan.legend) {
        const QRectF swatch{key.swatch + QPointF{0, 2}, QSizeF{swatchWidth, line - 4}};
        canvas.painter.setPen(QPen{canvas.palette().edge, 1});
        canvas.painter.setBrush(canvas.fill(key.tone));
        canvas.painter.drawRect(swatch);
        const auto tone = static_cast<std::size_t>(key.tone);
        if (tone >= 2 && tone < 2 + contourHours.size()) {
            canvas.painter.setPen(contourPen(canvas.dress, contourHours.at(tone - 2)));
            canvas.painter.drawLine(swatch.topLeft() - QPointF{0, 3}, swatch.bottomLeft() + QPointF{0, 3});
        }
        write(canvas, {swatch.right() + besideSwatch, key.swatch.y(), 1, line}, Qt::AlignLeft | Qt::AlignVCenter,
              key.words, canvas.palette().text);
    }
}

void paintHeap(const LayersCanvas& canvas) {
    QPainter& painter = canvas.painter;
    for (const LayersArea& area : canvas.plan.areas) {
        fillArea(canvas, area.tone, area.outline);
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{canvas.dress.seam, 0.8});
    for (const QPolygonF& seam : canvas.plan.seams) {
        painter.drawPolyline(seam);
    }
    for (const LayersContour& contour : canvas.plan.contours) {
        painter.setPen(contourPen(canvas.dress, contour.hours));
        painter.drawPolyline(contour.line);
    }
    painter.setPen(QPen{canvas.palette().text, 1.6});
    painter.drawPolyline(canvas.plan.surface);
    painter.drawLine(canvas.plan.layout.plot.bottomLeft(), canvas.plan.layout.plot.bottomRight());
}

void paintThermometers(const LayersCanvas& canvas) {
    const auto& layout = canvas.plan.layout;
    for (const LayersReach& reach : canvas.plan.reaches) {
        QPen pen{canvas.palette().trace(reach.look).colour, 1.2};
        pen.setDashPattern({2, 2});
        for (const QPolygonF* line : {&reach.upper, &reach.lower}) {
            drawSeamed(canvas, pen, [&] { canvas.painter.drawPolyline(*line); });
        }
    }
    for (const LayersThermometer& each : canvas.plan.thermometers) {
        if (!each.isMissing) {
            QPen pen = tracePen(canvas.palette(), each.look);
            pen.setWidthF(1.4);
            drawSeamed(canvas, pen, [&] {
                canvas.painter.drawLine(QPointF{layout.plot.left(), each.y}, QPointF{layout.cut.right() + 4, each.y});
            });
        }
    }
}

/// A jagged line from the surface to where mixing ended.
QPolygonF jagged(const LayersFault& fault) {
    constexpr double tooth = 6;
    QPolygonF line;
    const int teeth = std::max(1, static_cast<int>((fault.bottom - fault.top) / tooth));
    for (int i = 0; i <= teeth; ++i) {
        const double aside = i == 0 || i == teeth ? 0 : (i % 2 == 0 ? 2.5 : -2.5);
        line.append({fault.x + aside, fault.top + (fault.bottom - fault.top) * i / teeth});
    }
    return line;
}

void paintEvents(const LayersCanvas& canvas) {
    const QFontMetricsF metrics{canvas.dress.font};
    for (const LayersFault& fault : canvas.plan.faults) {
        const QPolygonF line = jagged(fault);
        drawSeamed(canvas, QPen{canvas.palette().text, 1.5}, [&] { canvas.painter.drawPolyline(line); });
    }
    for (const LayersMark& mark : canvas.plan.marks) {
        paintMark(canvas, mark.kind, mark.place);
        if (!mark.label.isEmpty()) {
            write(canvas, {mark.place.x() - 60, mark.place.y() + 13, 120, metrics.height()}, Qt::AlignHCenter,
                  mark.label, canvas.palette().text);
        }
    }
    for (const LayersFault& fault : canvas.plan.faults) {
        if (!fault.label.isEmpty()) {
            const double half = metrics.horizontalAdvance(fault.label) / 2 + 3;
            const auto& plot = canvas.plan.layout.plot;
            const double x = std::clamp(fault.x, plot.left() + half, std::max(plot.left() + half, plot.right() - half));
            writeOnPatch(canvas, {x, std::max(plot.top() + metrics.height() / 2, fault.top - 2 * metrics.height())},
                         fault.label);
        }
    }
}

}  // namespace

void paintLayers(QPainter& painter, const QRectF& target, const LayersPlan& plan, const LayersDress& dress) {
    const LayersCanvas canvas{painter, plan, dress};
    const QSizeF size{plan.layout.names.right(), plan.layout.times.bottom()};
    painter.save();
    painter.translate(target.topLeft());
    painter.scale(target.width() / size.width(), target.height() / size.height());
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(dress.font);
    paintAxes(canvas);
    paintLegend(canvas);
    paintHeap(canvas);
    paintCut(canvas);
    paintThermometers(canvas);
    paintEvents(canvas);
    paintCutWords(canvas);
    paintNames(canvas);
    painter.restore();
}

void paintPointed(QPainter& painter, const LayersSource& source, const LayersPlan& plan, const LayersDress& dress,
                  LayerSpot spot) {
    const LayerThen* layer = layerOf(source, spot);
    if (layer == nullptr) {
        return;
    }
    const LayersCanvas canvas{painter, plan, dress};
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const LayerBand band = bandOf(source, plan.layout, spot.id);
    QPen maybe{dress.palette.text, 1};
    maybe.setDashPattern({2, 2});
    drawSeamed(canvas, maybe, [&] { painter.drawPolygon(band.uncertain); });
    drawSeamed(canvas, QPen{dress.palette.accent, 2}, [&] { painter.drawPolygon(band.outline); });
    const double x = plan.layout.xOf(source.history.columns[spot.column].at);
    const QRectF then{x - 2, plan.layout.yOf(layer->toLitres), 4,
                      plan.layout.yOf(layer->fromLitres) - plan.layout.yOf(layer->toLitres)};
    drawSeamed(canvas, QPen{dress.palette.accent, 1}, [&] {
        painter.drawLine(QPointF{x, plan.layout.plot.top()}, QPointF{x, plan.layout.times.top()});
    });
    painter.fillRect(then, dress.palette.accent);
    painter.restore();
}

}  // namespace midden::ui
