// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

class QPushButton;
class QWidget;

namespace midden::ui {

/// A button that Enter presses where it stands. `name` is what tests find it by; a screen reader says its words.
QPushButton* namedButton(const QString& words, const char* name, QWidget* parent);

}  // namespace midden::ui
