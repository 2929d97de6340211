// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/palette.h"

#include <QWidget>
#include <algorithm>
#include <cmath>

namespace midden::ui {

namespace {

QColor rgb(unsigned value) {
    return QColor::fromRgb(value);
}

std::array<TraceLook, 4> looks(unsigned first, unsigned second, unsigned third, unsigned fourth) {
    return {TraceLook{rgb(first), Qt::SolidLine, Mark::dot}, TraceLook{rgb(second), Qt::DashLine, Mark::square},
            TraceLook{rgb(third), Qt::DotLine, Mark::triangle}, TraceLook{rgb(fourth), Qt::DashDotLine, Mark::diamond}};
}

/// Relative luminance as WCAG 2.2 defines it.
double luminance(const QColor& colour) {
    const auto linear = [](double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) + 0.0722 * linear(colour.blueF());
}

}  // namespace

const Palette& Palette::light() {
    static const Palette palette{.ground = rgb(0xFFFFFF),
                                 .side = rgb(0xF6F5F1),
                                 .text = rgb(0x1D211F),
                                 .muted = rgb(0x5A615D),
                                 .hairline = rgb(0xD8D6CF),
                                 .edge = rgb(0x8C918D),
                                 .accent = rgb(0x0B6E75),
                                 .onAccent = rgb(0xFFFFFF),
                                 .chosen = rgb(0xE3EDEB),
                                 .question = rgb(0x8A4A00),
                                 .band = rgb(0xE2EFEA),
                                 .gap = rgb(0xB4B0A6),
                                 .outside = rgb(0x7C827E),
                                 .traces = looks(0x0B6E75, 0xB5502A, 0x6B3FA0, 0x6E7A1E)};
    return palette;
}

const Palette& Palette::dark() {
    static const Palette palette{.ground = rgb(0x1A1D1C),
                                 .side = rgb(0x222625),
                                 .text = rgb(0xECEAE4),
                                 .muted = rgb(0xA9AFAB),
                                 .hairline = rgb(0x3A3F3D),
                                 .edge = rgb(0x757B77),
                                 .accent = rgb(0x62C4CA),
                                 .onAccent = rgb(0x10201F),
                                 .chosen = rgb(0x263A39),
                                 .question = rgb(0xF0B36A),
                                 .band = rgb(0x233C38),
                                 .gap = rgb(0x6C726E),
                                 .outside = rgb(0x8E9490),
                                 .traces = looks(0x62C4CA, 0xF0976F, 0xC7A6F0, 0xBFCC66)};
    return palette;
}

const Palette& Palette::of(const QWidget& widget) {
    const QPalette& own = widget.palette();
    return own.color(QPalette::Window).lightness() < own.color(QPalette::WindowText).lightness() ? dark() : light();
}

QPalette Palette::forWidgets() const {
    QPalette widgets{text,   side,  hairline.lighter(isDark() ? 130 : 110), hairline, hairline, text, text,
                     ground, ground};
    widgets.setColor(QPalette::AlternateBase, side);
    widgets.setColor(QPalette::Button, side);
    widgets.setColor(QPalette::Highlight, accent);
    widgets.setColor(QPalette::HighlightedText, onAccent);
    widgets.setColor(QPalette::Link, accent);
    widgets.setColor(QPalette::LinkVisited, accent);
    widgets.setColor(QPalette::PlaceholderText, muted);
    widgets.setColor(QPalette::ToolTipBase, side);
    widgets.setColor(QPalette::ToolTipText, text);
    for (const auto role : {QPalette::Text, QPalette::WindowText, QPalette::ButtonText}) {
        widgets.setColor(QPalette::Disabled, role, muted);
    }
    return widgets;
}

double contrast(const QColor& a, const QColor& b) {
    const auto [dimmer, brighter] = std::minmax({luminance(a), luminance(b)});
    return (brighter + 0.05) / (dimmer + 0.05);
}

}  // namespace midden::ui
