// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QApplication;

namespace midden::ui {

/// From now on every label of the application shows its text as text, whatever it looks like: names, notes and file
/// names are other people's. Qt would otherwise take a name such as "<img src=…>" for markup. A label that was given
/// a format of its own keeps it. Tips, which Qt shows in labels too, are included.
void showTextAsText(QApplication& application);

}  // namespace midden::ui
