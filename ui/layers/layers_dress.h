// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFont>
#include <QPen>
#include <array>

#include "ui/layers/layers_plan.h"
#include "ui/shared/palette.h"

namespace midden::ui {

/// How the picture is dressed. All colours are opaque. Lines stand 3:1 against every tone, or have a seam of the ground
/// around them (WCAG 2.2, success criterion 1.4.11).
struct LayersDress {
    Palette palette;
    std::array<QColor, tones> fill;  ///< by tone; each step can be told apart in grey
    QColor seam;                     ///< between feeds
    QFont font;                      ///< its pixel size in the pixels the plan was made for
    /// Letters are laid out so many times as large and drawn smaller: on paper no letter is a whole number of pixels
    /// wide.
    int letterScale = 1;
};

/// On light the longer the darker, on dark the longer the brighter.
LayersDress layersDress(const Palette& palette, const QFont& font);

/// The line around layers that have had so many hours.
QPen contourPen(const LayersDress& dress, int hours);

}  // namespace midden::ui
