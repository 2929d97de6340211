// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_dress.h"

namespace midden::ui {

namespace {

std::array<QColor, tones> ramp(std::array<unsigned, tones> values) {
    std::array<QColor, tones> colours;
    for (std::size_t tone = 0; tone < tones; ++tone) {
        colours.at(tone) = QColor::fromRgb(values.at(tone));
    }
    return colours;
}

}  // namespace

/// From straw to loam, chosen by luminance: 0.85, 0.60, 0.40, 0.26 and 0.16, and on dark 0.02, 0.05, 0.09, 0.15, 0.24.
LayersDress layersDress(const Palette& palette, const QFont& font) {
    if (palette.isDark()) {
        return {palette, ramp({0x2D2B25, 0x473C2D, 0x675035, 0x89643B, 0xA87E3E, 0x30373A}), QColor{0x10, 0x12, 0x11},
                font};
    }
    return {palette, ramp({0xF2EDDF, 0xDFCA99, 0xCCA366, 0xB97F46, 0x9B613F, 0xDDE3E4}), QColor{0xFF, 0xFF, 0xFF},
            font};
}

QPen contourPen(const LayersDress& dress, int hours) {
    QPen pen{dress.palette.text, hours >= contourHours.back() ? 1.7 : 1.2};
    pen.setCapStyle(Qt::FlatCap);
    pen.setJoinStyle(Qt::MiterJoin);
    if (hours == contourHours.front()) {
        pen.setDashPattern({1.5, 2});
    } else if (hours < contourHours.back()) {
        pen.setDashPattern({5, 2.5});
    }
    return pen;
}

}  // namespace midden::ui
