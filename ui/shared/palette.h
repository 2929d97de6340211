// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QPalette>
#include <Qt>
#include <array>

class QWidget;

namespace midden::ui {

/// How the trace of one position is told apart: by colour, by dash and by mark, never by colour alone.
enum class Mark { dot, square, triangle, diamond };
struct TraceLook {
    QColor colour;
    Qt::PenStyle dash = Qt::SolidLine;
    Mark mark = Mark::dot;
};

/// Every colour of the window, once for light and once for dark. All of them are opaque.
/// Text, muted text, accent and traces stand at least 4.5:1 against `ground` (WCAG 2.2, success criterion 1.4.3).
struct Palette {
    QColor ground;  ///< of pages, cells and charts
    QColor side;    ///< of the pane of bin cards
    QColor text;
    QColor muted;     ///< secondary text
    QColor hairline;  ///< rules between things
    QColor edge;      ///< of what can be typed into or pressed: 3:1 against the ground (success criterion 1.4.11)
    QColor accent;    ///< the one accent: focus, selection, links, the chosen tab
    QColor onAccent;  ///< text on it
    QColor chosen;    ///< ground of the chosen card or row
    QColor question;  ///< text of a question beside a cell; the words say it too
    QColor band;      ///< ground of a window of credited time
    QColor gap;       ///< hatching of a gap
    QColor outside;   ///< air temperature
    std::array<TraceLook, 4> traces;

    static const Palette& light();
    static const Palette& dark();
    /// The one that fits the lightness of the widget's window.
    static const Palette& of(const QWidget& widget);

    bool isDark() const { return ground.lightness() < text.lightness(); }
    /// The look of the n-th position, in alphabetical order with "core" first; repeats after four.
    const TraceLook& trace(std::size_t n) const { return traces.at(n % traces.size()); }
    QPalette forWidgets() const;
};

/// WCAG 2.2 contrast ratio, 1 to 21.
double contrast(const QColor& a, const QColor& b);

}  // namespace midden::ui
