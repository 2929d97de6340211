// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/rate_picture.h"

#include <QPainter>
#include <algorithm>

#include "core/thermal/rate_curves.h"
#include "ui/shared/palette.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int hottest = 80;          // °C, right edge
constexpr double doublingEnds = 45;  // °C, beyond it the rule of thumb does not hold

Celsius celsius(double degrees) {
    return Celsius::ofTenThousandths(static_cast<std::int64_t>(degrees * 10'000));
}

/// Doubling, scaled so that it meets the other curve where the rule of thumb ends.
double doubling(double degrees) {
    const double meets = cardinalFactor(celsius(doublingEnds));
    return meets * doublingFactor(celsius(degrees)) / doublingFactor(celsius(doublingEnds));
}

double cardinal(double degrees) {
    return cardinalFactor(celsius(degrees));
}

QPolygonF curve(const QRectF& plot, double (*rate)(double), double until) {
    QPolygonF line;
    for (int half = 0; half <= static_cast<int>(2 * until); ++half) {
        const double degrees = half / 2.0;
        line << QPointF{plot.left() + degrees / hottest * plot.width(),
                        plot.bottom() - rate(degrees) * plot.height() * 0.95};
    }
    return line;
}

QString axisNumber(int degrees, TemperatureUnit unit) {
    return unit == TemperatureUnit::celsius ? QString::number(degrees) : QString::number(degrees * 9 / 5 + 32);
}

}  // namespace

RatePicture::RatePicture(QWidget* parent) : QWidget{parent} {
    setObjectName(QStringLiteral("ratePicture"));
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void RatePicture::show(std::optional<Celsius> now, TemperatureUnit unit) {
    now_ = now;
    unit_ = unit;
    setAccessibleName(tr("Teaching picture: how fast compost is said to work at each temperature"));
    update();
}

QSize RatePicture::sizeHint() const {
    return {fontMetrics().averageCharWidth() * 44, fontMetrics().height() * 9};
}

void RatePicture::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter{this};
    painter.setRenderHint(QPainter::Antialiasing);
    const Palette& look = Palette::of(*this);
    const double line = fontMetrics().height();
    const QRectF plot = QRectF{rect()}.adjusted(8, line + 4, -8, -line - 4);
    painter.setPen(QPen{look.hairline, 1});
    painter.drawLine(plot.bottomLeft(), plot.bottomRight());
    painter.setPen(look.muted);
    for (int degrees = 0; degrees <= hottest; degrees += 20) {
        const double x = plot.left() + static_cast<double>(degrees) / hottest * plot.width();
        const QString number =
            axisNumber(degrees, unit_) + (degrees == hottest ? QLatin1Char{' '} + words::unitName(unit_) : QString{});
        const double width = fontMetrics().horizontalAdvance(number) + 2;
        const double left = std::clamp(x - width / 2, 0.0, QWidget::width() - width);
        painter.drawText(QRectF{left, plot.bottom() + 2, width, line}, Qt::AlignCenter, number);
    }
    painter.setPen(QPen{look.trace(1).colour, 1.6, Qt::DashLine});
    painter.drawPolyline(curve(plot, doubling, doublingEnds));
    painter.setPen(QPen{look.trace(0).colour, 1.8});
    painter.drawPolyline(curve(plot, cardinal, hottest));
    painter.setPen(look.text);
    painter.drawText(QRectF{0, 0, static_cast<double>(width()), line}, Qt::AlignLeft | Qt::AlignVCenter,
                     tr("how fast, for teaching"));
    if (now_ && now_->value() > 0 && now_->value() < hottest) {
        const double x = plot.left() + now_->value() / hottest * plot.width();
        painter.setPen(QPen{look.edge, 1, Qt::DotLine});
        painter.drawLine(QPointF{x, plot.top()}, QPointF{x, plot.bottom()});
        painter.setPen(Qt::NoPen);
        painter.setBrush(look.trace(0).colour);
        painter.drawEllipse(QPointF{x, plot.bottom() - cardinal(now_->value()) * plot.height() * 0.95}, 4, 4);
    }
}

}  // namespace midden::ui
