// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace midden::ui {

/// A thin rule between things, in the palette's colour.
class Hairline : public QWidget {
  public:
    explicit Hairline(Qt::Orientation orientation, QWidget* parent = nullptr);

  protected:
    void paintEvent(QPaintEvent* event) override;
};

}  // namespace midden::ui
