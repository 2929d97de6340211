// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/hairline.h"

#include <QPainter>

#include "ui/shared/palette.h"

namespace midden::ui {

Hairline::Hairline(Qt::Orientation orientation, QWidget* parent) : QWidget{parent} {
    if (orientation == Qt::Horizontal) {
        setFixedHeight(1);
    } else {
        setFixedWidth(1);
    }
}

void Hairline::paintEvent(QPaintEvent* /*event*/) {
    QPainter{this}.fillRect(rect(), Palette::of(*this).hairline);
}

}  // namespace midden::ui
