// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "core/quantities/temperature.h"

namespace midden::ui {

/// A teaching picture: how fast compost is said to work at each temperature, by the cardinal-temperature curve and by
/// doubling every 10 °C, with the batch's last round marked on both.
class RatePicture : public QWidget {
    Q_OBJECT

  public:
    explicit RatePicture(QWidget* parent = nullptr);
    void show(std::optional<Celsius> now, TemperatureUnit unit);
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return sizeHint(); }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::optional<Celsius> now_;
    TemperatureUnit unit_ = TemperatureUnit::celsius;
};

}  // namespace midden::ui
