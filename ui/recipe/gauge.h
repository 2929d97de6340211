// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "core/recipe/estimate.h"

namespace midden::ui {

/// A figure on a straight scale over the band it should lie in, with a thin line for how far it may be off.
class Gauge : public QWidget {
  public:
    struct Scale {
        QString name;  ///< "C:N"
        QString unit;  ///< " %" or nothing
        Bounds ends;
        Bounds acceptable;
        Bounds preferred;
    };
    explicit Gauge(Scale scale, QWidget* parent = nullptr);

    void setFigure(std::optional<double> figure, const std::optional<Bounds>& range, const QString& inWords);

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    double placeOf(double value) const;
    void paintScale(QPainter& painter, const QRectF& track) const;
    void paintFigure(QPainter& painter, const QRectF& track) const;

    Scale scale_;
    std::optional<double> figure_;
    std::optional<Bounds> range_;
};

}  // namespace midden::ui
