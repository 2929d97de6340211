// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/paper_chart.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "core/criteria/gap_rule.h"
#include "core/thermal/credit.h"
#include "ui/certificate/chart_frame.h"
#include "ui/certificate/chart_marks.h"
#include "ui/certificate/paper_font.h"

namespace midden::ui {

namespace {

constexpr double labelPoints = 7;
const QColor bandColour{0xdd, 0xec, 0xec};
const QColor hatching{0xb9, 0xc1, 0xc3};
const QColor outsideColour{0x8a, 0x93, 0x96};

void write(QPainter& painter, const QRectF& box, int flags, const QString& text, const QColor& colour) {
    painter.setFont(paperFont(Face::regular, labelPoints));
    painter.setPen(colour);
    painter.drawText(box, flags | Qt::TextDontClip | Qt::TextSingleLine, text);
}

/// Over whatever lies behind, on a ground of its own.
void writeOver(QPainter& painter, QPointF centre, const QString& text, const QColor& ground) {
    const QFontMetricsF metrics{paperFont(Face::regular, labelPoints)};
    QRectF box{0, 0, metrics.horizontalAdvance(text) + 1.2 * mm, metrics.height()};
    box.moveCenter(centre);
    painter.fillRect(box, ground);
    write(painter, box, Qt::AlignCenter, text, ink::text);
}

double textWidth(const QString& text) {
    return QFontMetricsF{paperFont(Face::regular, labelPoints)}.horizontalAdvance(text) + 2 * mm;
}

QString wholeHours(Seconds time) {
    return QStringLiteral("%1 h").arg(time.count / 3'600);
}

void drawBands(QPainter& painter, const ChartFrame& frame, const BatchReview& review) {
    if (review.thresholds.empty()) {
        return;
    }
    for (const auto& window : review.thresholds.front().windows) {
        painter.fillRect(frame.column(window), bandColour);
    }
}

/// Last of all, so that no line runs through the words.
void nameBands(QPainter& painter, const ChartFrame& frame, const BatchReview& review) {
    if (review.thresholds.empty()) {
        return;
    }
    for (const auto& window : review.thresholds.front().windows) {
        const auto column = frame.column(window);
        const auto words = wholeHours(window.length());
        if (column.width() >= textWidth(words)) {
            writeOver(painter, {column.center().x(), column.top() + 2.2 * mm}, words, bandColour);
        }
    }
}

/// Time in which no monitored position has a reading.
IntervalSet commonGaps(const BatchReview& review) {
    IntervalSet common;
    for (std::size_t i = 0; i < review.positions.size(); ++i) {
        IntervalSet own;
        for (const auto& gap : review.gaps) {
            if (gap.position == review.positions[i]) {
                own.push_back(gap.interval);
            }
        }
        common = i == 0 ? own : intersection(common, own);
    }
    return common;
}

void hatch(QPainter& painter, const QRectF& column) {
    painter.save();
    painter.setClipRect(column);
    painter.setPen(QPen{hatching, 0.12 * mm});
    const double lean = column.height();
    constexpr double apart = 1.6 * mm;
    const int lines = static_cast<int>((column.width() + lean) / apart) + 1;
    for (int i = 0; i < lines; ++i) {
        const double x = column.left() - lean + i * apart;
        painter.drawLine(QPointF{x, column.bottom()}, QPointF{x + lean, column.top()});
    }
    painter.restore();
}

void drawGaps(QPainter& painter, const ChartFrame& frame, const BatchReview& review) {
    for (const auto& gap : commonGaps(review)) {
        const auto column = frame.column(gap);
        hatch(painter, column);
    }
}

void nameGaps(QPainter& painter, const ChartFrame& frame, const BatchReview& review) {
    for (const auto& gap : commonGaps(review)) {
        const auto column = frame.column(gap);
        const auto words = QStringLiteral("no reading ") + wholeHours(gap.length());
        const auto fewer = wholeHours(gap.length());
        const auto& fitting = textWidth(words) <= column.width() ? words : fewer;
        if (textWidth(fitting) <= column.width()) {
            writeOver(painter, column.center(), fitting, ink::paper);
        }
    }
}

void drawAxes(QPainter& painter, const ChartFrame& frame) {
    const auto& plot = frame.plot();
    painter.setPen(QPen{ink::hairline, 0.1 * mm});
    for (const auto& tick : frame.degrees()) {
        const double y = frame.y(tick.at);
        painter.setPen(QPen{ink::hairline, 0.1 * mm});
        painter.drawLine(QPointF{plot.left(), y}, QPointF{plot.right(), y});
        write(painter, {plot.left() - 9 * mm, y - 2 * mm, 8 * mm, 4 * mm}, Qt::AlignRight | Qt::AlignVCenter,
              tick.label, ink::quiet);
    }
    for (const auto& tick : frame.dates()) {
        const double x = frame.x({static_cast<std::int64_t>(tick.at)});
        painter.setPen(QPen{ink::hairline, 0.1 * mm});
        painter.drawLine(QPointF{x, plot.top()}, QPointF{x, plot.bottom() + 1 * mm});
        write(painter, {x - 8 * mm, plot.bottom() + 1 * mm, 16 * mm, 4 * mm}, Qt::AlignCenter, tick.label, ink::quiet);
    }
    painter.setPen(QPen{ink::quiet, 0.15 * mm});
    painter.drawLine(plot.bottomLeft(), plot.bottomRight());
}

void drawThreshold(QPainter& painter, const ChartFrame& frame, const BatchReview& review) {
    if (review.thresholds.empty()) {
        return;
    }
    const auto& plot = frame.plot();
    const double celsius = review.thresholds.front().threshold.value();
    const double y = frame.y(celsius);
    painter.setPen(QPen{ink::text, 0.18 * mm});
    painter.drawLine(QPointF{plot.left(), y}, QPointF{plot.right(), y});
    auto number = QString::number(celsius, 'f', 1);
    if (number.endsWith(QLatin1String{".0"})) {
        number.chop(2);
    }
    write(painter, {plot.right() + 1 * mm, y - 2 * mm, 10 * mm, 4 * mm}, Qt::AlignLeft | Qt::AlignVCenter,
          number + QStringLiteral(" °C"), ink::text);
}

void drawTrace(QPainter& painter, const ChartFrame& frame, const MinMaxPyramid& pyramid, const PaperTrace& look) {
    const auto samples = pyramid.samples();
    if (samples.empty()) {
        return;
    }
    const auto columns = static_cast<std::size_t>(frame.plot().width() / (0.15 * mm));
    const auto drawn = decimated(pyramid, frame.visible(), columns);
    QPainterPath path;
    std::vector<QPointF> points;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const auto& sample = samples[drawn[i]];
        const QPointF point{frame.x(sample.at), frame.y(sample.temperature().value())};
        const bool joined = i > 0 && samples[drawn[i]].at - samples[drawn[i] - 1].at <= ordinaryMaxGap;
        joined ? path.lineTo(point) : path.moveTo(point);
        points.push_back(point);
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(look.pen());
    painter.drawPath(path);
    if (look.mark != PaperMark::none && static_cast<double>(points.size()) * 0.8 * mm < frame.plot().width()) {
        for (const auto& point : points) {
            drawMark(painter, point, look);
        }
    }
}

void drawTraces(QPainter& painter, const ChartFrame& frame, const PaperChart& chart) {
    const BatchRecord& record = chart.record;
    const auto& pyramids = *chart.pyramids;
    painter.save();
    painter.setClipRect(frame.plot().adjusted(0, -1 * mm, 0, 1 * mm));
    drawTrace(painter, frame, pyramids.back(), {outsideColour, Qt::SolidLine, PaperMark::none, 0.2 * mm});
    const auto tracks = tracksInOrder(record);
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        const auto place = static_cast<std::size_t>(tracks[i] - record.tracks.data());
        drawTrace(painter, frame, pyramids[place], paperTrace(i));
    }
    painter.restore();
}

}  // namespace

PaperPyramids pyramidsOf(const BatchRecord& record) {
    std::vector<MinMaxPyramid> pyramids;
    pyramids.reserve(record.tracks.size() + 1);
    for (const Track& track : record.tracks) {
        pyramids.emplace_back(track.samples);
    }
    pyramids.emplace_back(record.outside);
    return std::make_shared<const std::vector<MinMaxPyramid>>(std::move(pyramids));
}

void drawPaperChart(QPainter& painter, const QRectF& target, const PaperChart& chart) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double lanes = laneHeight(chart.review);
    const double legend = drawChartLegend(painter, target, chart.record);
    const ChartFrame frame{chart, target.adjusted(9 * mm, legend + 1 * mm, -11 * mm, -(5 * mm + lanes))};
    drawBands(painter, frame, chart.review);
    drawAxes(painter, frame);
    drawGaps(painter, frame, chart.review);
    drawThreshold(painter, frame, chart.review);
    drawTraces(painter, frame, chart);
    nameGaps(painter, frame, chart.review);
    nameBands(painter, frame, chart.review);
    drawLanes(painter, frame, chart);
    painter.restore();
}

}  // namespace midden::ui
