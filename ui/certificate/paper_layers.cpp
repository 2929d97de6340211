// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/paper_layers.h"

#include <QFontMetricsF>
#include <QPainter>

#include "ui/certificate/chart_frame.h"
#include "ui/certificate/paper_font.h"
#include "ui/layers/layers_painter.h"

namespace midden::ui {

namespace {

constexpr double pixel = 0.21 * mm;  // of the plan, on the page
constexpr int letterPixels = 11;     // 6.5 points
constexpr int letterScale = 20;
constexpr double plotShare = 0.7;  // of the width, about; dates keep clear of one another in that

Palette inks() {
    Palette palette = Palette::light();
    palette.ground = ink::paper;
    palette.text = ink::text;
    palette.muted = ink::quiet;
    palette.hairline = ink::hairline;
    palette.accent = ink::accent;
    return palette;
}

QString hotAt(const LayersSource& source) {
    QString degrees = QString::number(source.threshold.value(), 'f', 1);
    if (degrees.endsWith(QLatin1String{".0"})) {
        degrees.chop(2);
    }
    return QStringLiteral("Hours so far at %1 °C or more, at least").arg(degrees);
}

}  // namespace

void drawPaperLayers(QPainter& painter, const QRectF& target, const LayersSource& source, const TimeZone& zone) {
    QFont font = paperFont(Face::regular, 7);
    font.setPixelSize(letterPixels);
    QFont large = font;
    large.setPixelSize(letterPixels * letterScale);
    const QFontMetricsF metrics{large};
    LayersFrame frame{target.size() / pixel, metrics.height() / letterScale, {}, zone};
    frame.textWidth = [metrics](const QString& text) { return metrics.horizontalAdvance(text) / letterScale; };
    frame.onPaper = true;
    frame.dates = [&](const Interval& visible) {
        std::vector<LayersTick> dates;
        for (const FrameTick& tick : datesOver(visible, zone, target.width() * plotShare)) {
            dates.push_back({tick.at, tick.label});
        }
        return dates;
    };
    LayersPlan plan = layersPlan(source, frame);
    plan.hotAt = hotAt(source);
    const QSizeF drawn = QSizeF{plan.layout.names.right(), plan.layout.times.bottom()} * pixel;
    LayersDress dress = layersDress(inks(), font);
    dress.letterScale = letterScale;
    paintLayers(painter, {target.topLeft(), drawn}, plan, dress);
}

}  // namespace midden::ui
