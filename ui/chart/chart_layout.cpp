// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_layout.h"

#include <QFontMetricsF>
#include <algorithm>
#include <cmath>

#include "ui/chart/chart_picture.h"

namespace midden::ui {

namespace {

/// Where less would be left for the temperatures, the heat is not drawn.
constexpr double leastPlotLines = 9;

/// In whole pixels, so that the plot's pixel columns are those of the screen.
double leftMargin(const QFontMetricsF& metrics) {
    return std::ceil(metrics.horizontalAdvance(QStringLiteral("0000")) + 6);
}

/// Room for the threshold's number.
double rightMargin(const QFontMetricsF& metrics) {
    return metrics.horizontalAdvance(QStringLiteral("000 °C")) + 8;
}

}  // namespace

double plotWidth(double pictureWidth, const QFont& font) {
    const QFontMetricsF metrics{font};
    return std::max(40.0, std::floor(pictureWidth - leftMargin(metrics) - rightMargin(metrics)));
}

ChartLayout layoutOf(const ChartPlan& plan, const QFont& font, QSizeF size) {
    const QFontMetricsF metrics{font};
    const double line = metrics.height();
    const double left = leftMargin(metrics);
    const double width = plotWidth(size.width(), font);
    ChartLayout layout;
    layout.visible = plan.visible;
    layout.lowestCelsius = plan.lowestCelsius;
    layout.highestCelsius = plan.highestCelsius;
    // From the bottom up, what is left over is the plot.
    double bottom = size.height() - 2;
    const auto take = [&](double height) {
        bottom -= height;
        return QRectF{left, bottom, width, height};
    };
    for (std::size_t i = 0; i < plan.strips.size(); ++i) {
        layout.strips.insert(layout.strips.begin(), take(line + 18));
    }
    if (!plan.marks.empty()) {
        layout.lane = take(20 + plan.laneRows * line + 4);
    }
    if (!plan.stalls.empty()) {
        layout.stalls = take(line + 8);
    }
    const double heatHeight = 5 * line;
    const bool hasRoom = bottom - line - 10 - heatHeight >= leastPlotLines * line;
    if (!plan.heat.steps.empty() && hasRoom) {
        layout.heat = take(heatHeight);
    }
    layout.timeLabels = take(line + 10);
    layout.legend = QRectF{left, 0, width, line + 10};
    const double top = layout.legend.bottom() + 2;
    layout.plot = QRectF{left, top, width, std::max(40.0, bottom - top)};
    return layout;
}

double ChartLayout::xOf(Instant at) const {
    return plot.left() +
           static_cast<double>((at - visible.from).count) * plot.width() / static_cast<double>(visible.length().count);
}

double ChartLayout::yOf(double celsius) const {
    return plot.bottom() - (celsius - lowestCelsius) / (highestCelsius - lowestCelsius) * plot.height();
}

Instant ChartLayout::instantAt(double x) const {
    const double way = std::clamp((x - plot.left()) / plot.width(), 0.0, 1.0);
    return visible.from + Seconds{static_cast<std::int64_t>(way * static_cast<double>(visible.length().count))};
}

}  // namespace midden::ui
