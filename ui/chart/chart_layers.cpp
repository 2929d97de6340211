// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_layers.h"
#include "ui/chart/chart_lines.h"
#include "ui/chart/pixels.h"
#include "ui/chart/trace_look.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QTransform>
#include <algorithm>
#include <cmath>
#include <map>

namespace midden::ui {

namespace {

constexpr double ribbonHeight = 18;
constexpr int hatchesApart = 7;  // pixels
/// In a narrower gap a hatching could not be told from noise; it is filled with a tone of the same ink.
constexpr double narrowestHatched = 2 * hatchesApart;

QRectF acrossPlot(const ChartLayout& layout, const Interval& interval) {
    const double left = std::max(layout.plot.left(), layout.xOf(interval.from));
    const double right = std::min(layout.plot.right(), layout.xOf(interval.to));
    return {left, layout.plot.top(), std::max(0.0, right - left), layout.plot.height()};
}

/// The whole width of the plot, as high as the gap is drawn.
QRectF rowOf(const ChartLayout& layout, const ChartGap& gap) {
    const QRectF plot = layout.plot;
    if (gap.position.isEmpty()) {
        return plot;
    }
    return {plot.left(), plot.bottom() - (gap.row + 1) * (ribbonHeight + 2), plot.width(), ribbonHeight};
}

QRectF areaOf(const ChartLayout& layout, const ChartGap& gap) {
    const QRectF across = acrossPlot(layout, gap.interval);
    const QRectF row = rowOf(layout, gap);
    return {across.left(), row.top(), across.width(), row.height()};
}

/// Lines of our own: a pattern brush would change its grain with the printer's resolution.
void hatch(QPainter& painter, const QRectF& area, const QColor& colour) {
    painter.save();
    painter.setClipRect(area, Qt::IntersectClip);
    painter.setPen(QPen{colour, 1});
    const int lines = static_cast<int>((area.width() + area.height()) / hatchesApart) + 1;
    for (int i = 0; i < lines; ++i) {
        const double x = area.left() - area.height() + i * hatchesApart;
        painter.drawLine(QPointF{x, area.bottom()}, QPointF{x + area.height(), area.top()});
    }
    painter.restore();
}

/// What a hatching looks like from afar.
QColor toneOf(const Palette& palette) {
    constexpr double ink = 1.5 / hatchesApart;  // lines aslant are longer than they are high
    const auto mixed = [](int ground, int line) {
        return static_cast<int>(std::lround(ground + (line - ground) * ink));
    };
    return {mixed(palette.ground.red(), palette.gap.red()), mixed(palette.ground.green(), palette.gap.green()),
            mixed(palette.ground.blue(), palette.gap.blue())};
}

void paintGaps(const ChartCanvas& canvas) {
    std::map<int, std::pair<QRectF, std::vector<Stretch>>> narrow;  // by the rows of single positions, -1 for all
    std::vector<QRectF> wide;
    for (const ChartGap& gap : canvas.plan.gaps) {
        const QRectF area = areaOf(canvas.layout, gap);
        if (area.width() >= narrowestHatched) {
            wide.push_back(area);
        } else {
            auto& [row, stretches] = narrow[gap.position.isEmpty() ? -1 : gap.row];
            row = rowOf(canvas.layout, gap);
            stretches.push_back({area.left(), area.right()});
        }
    }
    for (const auto& [number, gaps] : narrow) {
        fillStretches(canvas.painter, gaps.first, gaps.second, toneOf(canvas.dress.palette));
    }
    for (const QRectF& area : wide) {
        canvas.painter.fillRect(area, canvas.dress.palette.ground);
        hatch(canvas.painter, area, canvas.dress.palette.gap);
    }
}

/// Words around the origin on a patch of the ground, so that nothing runs through them.
void writeOnPatch(const ChartCanvas& canvas, const QString& words, const QColor& ground) {
    const QFontMetricsF metrics{canvas.dress.font};
    QRectF patch{0, 0, metrics.horizontalAdvance(words) + 6, metrics.height()};
    patch.moveCenter({});
    canvas.painter.fillRect(patch, ground);
    canvas.painter.setPen(canvas.dress.palette.text);
    canvas.painter.drawText(patch, Qt::AlignCenter, words);
}

void paintMarks(const ChartCanvas& canvas, const ChartTrace& trace) {
    const QPainterPath mark = traceMark(canvas.dress.palette, trace.look);
    const auto paint = [&](const ChartPoint& point, const QPainterPath& shape) {
        canvas.painter.drawPath(shape.translated(canvas.layout.xOf(point.at), canvas.layout.yOf(point.celsius)));
    };
    canvas.painter.setPen(QPen{canvas.dress.palette.ground, 1});
    canvas.painter.setBrush(tracePen(canvas.dress.palette, trace.look).color());
    for (const ChartLine& line : trace.lines) {
        if (line.size() == 1) {  // a reading on its own has no line to be seen by
            paint(line.front(), QTransform::fromScale(1.5, 1.5).map(mark));
        } else if (trace.everyReadingDrawn) {
            std::ranges::for_each(line, [&](const ChartPoint& point) { paint(point, mark); });
        }
    }
    std::ranges::for_each(trace.marked, [&](const ChartPoint& point) { paint(point, mark); });
}

void paintLine(const ChartCanvas& canvas, const ChartLine& line, const QPen& pen) {
    QPolygonF points;
    points.reserve(static_cast<qsizetype>(line.size()));
    for (const ChartPoint& point : line) {
        points.emplace_back(canvas.layout.xOf(point.at), canvas.layout.yOf(point.celsius));
    }
    drawTrace(canvas.painter, points, pen);
}

void paintThreshold(const ChartCanvas& canvas) {
    if (!canvas.plan.thresholdLabel.isEmpty()) {
        const double y = canvas.layout.yOf(canvas.plan.thresholdCelsius);
        canvas.painter.setPen(QPen{canvas.dress.palette.text, 1});
        canvas.painter.setRenderHint(QPainter::Antialiasing, false);  // a hairline: over one row, not two
        canvas.painter.drawLine(QPointF{canvas.layout.plot.left(), y}, QPointF{canvas.layout.plot.right(), y});
        canvas.painter.setRenderHint(QPainter::Antialiasing);
    }
}

/// A stroke with its mark, then the word.
double paintKey(const ChartCanvas& canvas, double left, const QPen& pen, const QPainterPath& mark,
                const QString& words) {
    const double middle = canvas.layout.legend.center().y();
    QPainter& painter = canvas.painter;
    painter.setPen(pen);
    painter.drawLine(QPointF{left, middle}, QPointF{left + 34, middle});
    painter.setPen(QPen{canvas.dress.palette.ground, 1});
    painter.setBrush(pen.color());
    painter.drawPath(mark.translated(left + 17, middle));
    const double width = QFontMetricsF{canvas.dress.font}.horizontalAdvance(words);
    painter.setPen(canvas.dress.palette.text);
    painter.drawText(QRectF{left + 40, canvas.layout.legend.top(), width + 2, canvas.layout.legend.height()},
                     Qt::AlignVCenter | Qt::AlignLeft, words);
    return left + 40 + width + 18;
}

void paintLegend(const ChartCanvas& canvas) {
    const auto say = [](const char* words) { return QCoreApplication::translate("ChartLegend", words); };
    double left = canvas.layout.legend.left();
    for (const ChartTrace& trace : canvas.plan.traces) {
        const QString words = trace.spotCheck ? say("%1 (spot check)").arg(trace.position) : trace.position;
        left = paintKey(canvas, left, tracePen(canvas.dress.palette, trace.look),
                        traceMark(canvas.dress.palette, trace.look), words);
    }
    if (!canvas.plan.outside.empty()) {
        paintKey(canvas, left, QPen{canvas.dress.palette.outside, 1}, {}, say("outside air"));
    }
}

void paintThresholdNumber(const ChartCanvas& canvas) {
    const QRectF plot = canvas.layout.plot;
    const double y = canvas.layout.yOf(canvas.plan.thresholdCelsius);
    if (canvas.plan.thresholdLabel.isEmpty() || y < plot.top() || y > plot.bottom()) {
        return;
    }
    canvas.painter.setPen(canvas.dress.palette.text);
    canvas.painter.drawText(QRectF{plot.right() + 5, y - 12, 100, 24}, Qt::AlignVCenter | Qt::AlignLeft,
                            canvas.plan.thresholdLabel);
}

QPointF middleOfWords(const ChartCanvas& canvas, const ChartGap& gap) {
    const QRectF area = areaOf(canvas.layout, gap);
    const double outset = QFontMetricsF{canvas.dress.font}.horizontalAdvance(gap.words) / 2 + 5;
    if (gap.stand == Stand::after) {
        return {area.right() + outset, area.center().y()};
    }
    return gap.stand == Stand::before ? QPointF{area.left() - outset, area.center().y()} : area.center();
}

void writeIn(const ChartCanvas& canvas, const ChartBand& band) {
    const QFontMetricsF metrics{canvas.dress.font};
    const QRectF area = acrossPlot(canvas.layout, band.interval);
    const bool upright = band.stand == Stand::upright;
    const double below = upright ? metrics.horizontalAdvance(band.words) / 2 + 6 : metrics.height() / 2 + 3;
    canvas.painter.translate(area.center().x(), area.top() + below);
    canvas.painter.rotate(upright ? -90 : 0);
    writeOnPatch(canvas, band.words, canvas.dress.palette.band);
}

void writeIn(const ChartCanvas& canvas, const ChartGap& gap) {
    canvas.painter.translate(middleOfWords(canvas, gap));
    canvas.painter.rotate(gap.stand == Stand::upright ? -90 : 0);
    writeOnPatch(canvas, gap.words, canvas.dress.palette.ground);
}

/// Of bands or gaps; there may be a thousand without any.
template <class Part>
void paintWords(const ChartCanvas& canvas, const std::vector<Part>& parts) {
    for (const Part& part : parts) {
        if (!part.words.isEmpty()) {
            canvas.painter.save();
            writeIn(canvas, part);
            canvas.painter.restore();
        }
    }
}

}  // namespace

void paintBehind(const ChartCanvas& canvas) {
    std::vector<Stretch> bands;
    for (const ChartBand& band : canvas.plan.bands) {
        const QRectF area = acrossPlot(canvas.layout, band.interval);
        bands.push_back({area.left(), area.right()});
    }
    fillStretches(canvas.painter, canvas.layout.plot, bands, canvas.dress.palette.band);
    paintGaps(canvas);
    paintForecast(canvas);
}

void paintLines(const ChartCanvas& canvas) {
    canvas.painter.save();
    canvas.painter.setClipRect(onWholePixels(canvas.painter, canvas.layout.plot), Qt::IntersectClip);
    for (const ChartLine& line : canvas.plan.outside) {
        paintLine(canvas, line, QPen{canvas.dress.palette.outside, 1});
    }
    paintThreshold(canvas);
    for (const ChartTrace& trace : canvas.plan.traces) {
        for (const ChartLine& line : trace.lines) {
            paintLine(canvas, line, tracePen(canvas.dress.palette, trace.look));
        }
    }
    canvas.painter.restore();
}

void paintInFront(const ChartCanvas& canvas) {
    QPainter& painter = canvas.painter;
    paintLines(canvas);
    painter.setFont(canvas.dress.font);
    paintLegend(canvas);
    paintThresholdNumber(canvas);
    painter.setPen(canvas.dress.palette.muted);
    painter.drawText(
        QRectF{0, canvas.layout.legend.top(), canvas.layout.plot.left() - 6, canvas.layout.legend.height()},
        Qt::AlignVCenter | Qt::AlignRight, canvas.plan.unitLabel);
    painter.save();
    painter.setClipRect(canvas.layout.plot.adjusted(-4, -4, 4, 4), Qt::IntersectClip);
    for (const ChartTrace& trace : canvas.plan.traces) {
        paintMarks(canvas, trace);
    }
    paintWords(canvas, canvas.plan.bands);
    paintWords(canvas, canvas.plan.gaps);
    painter.restore();
    paintHeat(canvas);
    paintUnderTheAxis(canvas);
}

}  // namespace midden::ui
