// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QApplication;

namespace midden::ui {

enum class Lightness { asDesktop, light, dark };

/// How the program looks on this computer; kept in the person's settings, not in the logbook.
struct Appearance {
    Lightness lightness = Lightness::asDesktop;
    int textPoints = 0;  ///< 0 = as the desktop says

    static Appearance load();
    void save() const;
};

/// Puts colours, style and text size over the whole program. May be called again at any time.
void apply(const Appearance& appearance, QApplication& application);

}  // namespace midden::ui
