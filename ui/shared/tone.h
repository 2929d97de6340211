// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QWidget;

namespace midden::ui {

/// How loudly a line speaks. The house's style sheet gives it its colour, so it follows when light turns to dark.
enum class Tone {
    plain,
    quiet,    ///< beside the point
    question  ///< asks the person to look again
};

void setTone(QWidget& words, Tone tone);

}  // namespace midden::ui
