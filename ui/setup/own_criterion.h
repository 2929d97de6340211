// SPDX-License-Identifier: GPL-3.0-or-later
// A group's own criterion as it is typed, and what the reader of criteria says to each part of it.
#pragma once

#include <QString>
#include <map>
#include <optional>
#include <vector>

#include "core/criteria/criterion.h"

namespace midden::ui {

/// What stands in the fields of the form.
struct OwnDraft {
    TemperatureUnit unit = TemperatureUnit::celsius;  ///< of a temperature typed without one
    QString title;
    bool exceeds = false;
    QString threshold;
    QString ceiling;
    QString hold;
    bool holdInDays = false;
    Continuity continuity = Continuity::consecutive;
    QString turnings;
    QString apartHours;
    QString gapHours;
    QString source;
    QString note;
};

enum class OwnField { title, threshold, ceiling, hold, turnings, apart, gap };

/// What a draft means so far.
struct OwnReading {
    std::map<OwnField, QString> wrong;   ///< in words, for what was typed and cannot be used
    std::optional<Criterion> criterion;  ///< when nothing is wrong and nothing is missing
};

/// `amended` is what is being edited: its id and whatever the form does not show are kept. `others` are all criteria
/// the new one must be told apart from.
OwnReading readOwn(const OwnDraft& draft, const std::optional<Criterion>& amended,
                   const std::vector<Criterion>& others);

/// The fields that say what `criterion` says.
OwnDraft draftOf(const Criterion& criterion);

}  // namespace midden::ui
