// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

namespace midden::ui {

/// What may hurt the person, said where the act happens, and who says so.
struct SafetyLine {
    QString words;
    QString source;
};

enum class Act { reading, turning, opening, adding, takingOut, settingUp };
SafetyLine safetyLineFor(Act act);

}  // namespace midden::ui
