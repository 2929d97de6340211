// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRect>
#include <QSize>

class QWidget;

namespace midden::ui {

/// A window that lies on the screen as a whole, title and borders included: no larger than `available` less `frame`,
/// moved no further than it must be.
QRect fitted(QRect window, const QRect& available, const QSize& frame);

/// Moves and shrinks a window so that it fits the screen it is on, or, before it is shown, will be on.
void fitToScreen(QWidget& window);

/// The most that a window may take of its screen.
QSize roomOnScreen(const QWidget& window);

}  // namespace midden::ui
