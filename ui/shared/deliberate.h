// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QPushButton;

namespace midden::ui {

/// From now on a key held down since before the button had the keyboard does not press it: each press is one of its
/// own.
void wantDeliberatePress(QPushButton& button);

}  // namespace midden::ui
