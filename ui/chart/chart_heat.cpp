// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_heat.h"

#include <QFontMetricsF>
#include <QPainter>
#include <cmath>

#include "ui/chart/chart_layers.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

/// The panel with its scale.
class Panel {
  public:
    explicit Panel(const ChartCanvas& canvas) : canvas_{canvas}, heat_{canvas.plan.heat}, metrics_{canvas.dress.font} {
        area_ = canvas.layout.heat.adjusted(0, metrics_.height() + 2, 0, -4);
    }

    void paint() {
        paintScale();
        QPainter& painter = canvas_.painter;
        painter.save();
        painter.setClipRect(area_, Qt::IntersectClip);
        for (const ChartHeatStep& step : heat_.steps) {
            const QRectF band{QPointF{x(step.interval.from), y(step.high)}, QPointF{x(step.interval.to), y(step.low)}};
            painter.fillRect(band, canvas_.dress.palette.band);
        }
        painter.setPen(QPen{canvas_.dress.palette.accent, 1.6});
        for (const ChartHeatStep& step : heat_.steps) {
            painter.drawLine(QPointF{x(step.interval.from), y(step.rate)}, QPointF{x(step.interval.to), y(step.rate)});
        }
        painter.restore();
        writeCaption();
    }

  private:
    double x(Instant at) const { return canvas_.layout.xOf(at); }
    double y(double rate) const {
        return area_.bottom() - (rate - heat_.lowest) / (heat_.highest - heat_.lowest) * area_.height();
    }

    void paintScale() {
        QPainter& painter = canvas_.painter;
        const int lines = static_cast<int>(std::lround((heat_.highest - heat_.lowest) / heat_.tick));
        for (int i = 0; i <= lines; ++i) {
            const double rate = heat_.lowest + i * heat_.tick;
            const bool isZero = std::abs(rate) < heat_.tick / 2;
            painter.setPen(QPen{isZero ? canvas_.dress.palette.edge : canvas_.dress.palette.hairline, 1});
            painter.drawLine(QPointF{area_.left(), y(rate)}, QPointF{area_.right(), y(rate)});
            painter.setPen(canvas_.dress.palette.muted);
            const double half = metrics_.height() / 2;
            painter.drawText(QRectF{0, y(rate) - half, area_.left() - 6, 2 * half}, Qt::AlignRight | Qt::AlignVCenter,
                             words::number(isZero ? 0 : rate, heat_.decimals));
        }
    }

    void writeCaption() {
        const QRectF line{area_.left(), canvas_.layout.heat.top(), area_.width(), metrics_.height()};
        canvas_.painter.setPen(canvas_.dress.palette.muted);
        canvas_.painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter,
                                 metrics_.elidedText(heat_.caption, Qt::ElideRight, line.width()));
    }

    const ChartCanvas& canvas_;
    const ChartHeat& heat_;
    QFontMetricsF metrics_;
    QRectF area_;
};

}  // namespace

void paintHeat(const ChartCanvas& canvas) {
    if (!canvas.layout.heat.isEmpty()) {
        Panel{canvas}.paint();
    }
}

void paintForecast(const ChartCanvas& canvas) {
    const auto& forecast = canvas.plan.forecast;
    if (!forecast) {
        return;
    }
    const ChartLayout& layout = canvas.layout;
    const double right = layout.xOf(forecast->at);
    canvas.painter.save();
    canvas.painter.setClipRect(layout.plot, Qt::IntersectClip);
    canvas.painter.setPen(QPen{canvas.dress.palette.edge, 1, Qt::DotLine});
    canvas.painter.setBrush(canvas.dress.palette.hairline);
    canvas.painter.drawPolygon(
        QPolygonF{{QPointF{layout.xOf(forecast->from), layout.yOf(forecast->celsius)},
                   QPointF{right, layout.yOf(forecast->high)}, QPointF{right, layout.yOf(forecast->low)}}});
    canvas.painter.restore();
}

}  // namespace midden::ui
