// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipe/gauge.h"

#include <QPainter>
#include <algorithm>
#include <utility>

#include "ui/shared/palette.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr double trackHeight = 14;

QString ends(const Bounds& band) {
    return words::number(band.low, 0) + QChar{0x2013} + words::number(band.high, 0);
}

}  // namespace

Gauge::Gauge(Scale scale, QWidget* parent) : QWidget{parent}, scale_{std::move(scale)} {
    setAccessibleName(scale_.name);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void Gauge::setFigure(std::optional<double> figure, const std::optional<Bounds>& range, const QString& inWords) {
    figure_ = figure;
    range_ = range;
    setAccessibleDescription(inWords);
    update();
}

QSize Gauge::sizeHint() const {
    const int line = fontMetrics().height();
    return {fontMetrics().averageCharWidth() * 44, 3 * line + static_cast<int>(trackHeight) + 16};
}

QSize Gauge::minimumSizeHint() const {
    return {fontMetrics().averageCharWidth() * 24, sizeHint().height()};
}

double Gauge::placeOf(double value) const {
    const double part = (value - scale_.ends.low) / (scale_.ends.high - scale_.ends.low);
    return std::clamp(part, 0.0, 1.0) * (width() - 1);
}

void Gauge::paintScale(QPainter& painter, const QRectF& track) const {
    const Palette& palette = Palette::of(*this);
    const auto part = [&](const Bounds& b) {
        return QRectF{QPointF{placeOf(b.low), track.top()}, QPointF{placeOf(b.high), track.bottom()}};
    };
    painter.setPen(Qt::NoPen);
    painter.setBrush(palette.hairline);
    painter.drawRect(QRectF{0, track.center().y() - 0.5, static_cast<double>(width()), 1});
    painter.setBrush(palette.band);
    painter.drawRect(part(scale_.acceptable));
    painter.setPen(QPen{palette.accent, 2});
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(part(scale_.preferred).adjusted(1, 1, -1, -1));
    painter.setPen(palette.muted);
    const double top = track.bottom() + 4;
    const double line = fontMetrics().height();
    const auto label = [&](double at, const QString& text) {
        const double half = fontMetrics().horizontalAdvance(text) / 2.0;
        const double left = std::clamp(placeOf(at) - half, 0.0, width() - 2 * half);
        painter.drawText(QRectF{left, top, 2 * half + 1, line}, Qt::AlignCenter, text);
    };
    label(scale_.acceptable.low, words::number(scale_.acceptable.low, 0));
    label(scale_.acceptable.high, words::number(scale_.acceptable.high, 0));
    label((scale_.preferred.low + scale_.preferred.high) / 2, ends(scale_.preferred));
}

void Gauge::paintFigure(QPainter& painter, const QRectF& track) const {
    const Palette& palette = Palette::of(*this);
    if (range_) {
        painter.setPen(QPen{palette.text, 2});
        const double middle = track.center().y();
        painter.drawLine(QPointF{placeOf(range_->low), middle}, QPointF{placeOf(range_->high), middle});
    }
    if (figure_) {
        const double x = std::clamp(placeOf(*figure_), 6.0, width() - 7.0);
        painter.setPen(QPen{palette.ground, 1});
        painter.setBrush(palette.text);
        const double top = track.top() - 5;
        painter.drawPolygon(QPolygonF{{QPointF{x - 6, top}, QPointF{x + 6, top}, QPointF{x, track.bottom() - 2}}});
    }
}

void Gauge::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter{this};
    painter.setRenderHint(QPainter::Antialiasing);
    const Palette& palette = Palette::of(*this);
    const double line = fontMetrics().height();
    painter.setPen(palette.muted);
    painter.drawText(QRectF{0, 0, width() - 1.0, 1.5 * line}, Qt::AlignLeft | Qt::AlignVCenter, scale_.name);
    QFont large = font();
    large.setPointSizeF(font().pointSizeF() * 1.3);
    painter.setFont(large);
    painter.setPen(palette.text);
    const QString shown = figure_ ? words::number(*figure_, 1) + scale_.unit : QString{QChar{0x2014}};
    painter.drawText(QRectF{0, 0, width() - 1.0, 1.5 * line}, Qt::AlignRight | Qt::AlignVCenter, shown);
    painter.setFont(font());
    const QRectF track{0, 1.5 * line + 8, static_cast<double>(width()), trackHeight};
    paintScale(painter, track);
    paintFigure(painter, track);
}

}  // namespace midden::ui
