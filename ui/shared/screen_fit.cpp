// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/screen_fit.h"

#include <QGuiApplication>
#include <QScreen>
#include <QWidget>
#include <algorithm>

namespace midden::ui {

namespace {

/// Title and borders, which nobody knows before the window is shown.
QSize frameOf(const QWidget& window) {
    return {2 * window.fontMetrics().averageCharWidth(), 3 * window.fontMetrics().height()};
}

QRect availableTo(const QWidget& window) {
    const QScreen* screen = QGuiApplication::screenAt(window.geometry().center());
    return (screen != nullptr ? screen : window.screen())->availableGeometry();
}

}  // namespace

QRect fitted(QRect window, const QRect& available, const QSize& frame) {
    window.setSize(window.size().boundedTo(available.size() - frame));
    const int side = frame.width() / 2;
    const int right = available.right() + 1 - side - window.width();
    const int bottom = available.bottom() + 1 - window.height();
    window.moveLeft(std::clamp(window.left(), available.left() + side, right));
    window.moveTop(std::clamp(window.top(), available.top() + frame.height(), bottom));
    return window;
}

void fitToScreen(QWidget& window) {
    window.setGeometry(fitted(window.geometry(), availableTo(window), frameOf(window)));
}

QSize roomOnScreen(const QWidget& window) {
    return availableTo(window).size() - frameOf(window);
}

}  // namespace midden::ui
