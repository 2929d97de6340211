// SPDX-License-Identifier: GPL-3.0-or-later
// From what is typed into a cell of the list to the edit it means.
#pragma once

#include "core/quantities/zone.h"
#include "core/records/edit.h"
#include "ui/history/entry_row.h"

namespace midden::ui {

/// Which part of an entry is typed anew.
enum class EntryField { when, value, note };

/// How to read what is typed.
struct TypingHabits {
    TimeZone zone = TimeZone::utc();
    TemperatureUnit unit = TemperatureUnit::celsius;
    Moment now;
};

/// The amendment that typing `text` means, or what is wrong with it.
Result<Edit> amendmentOf(const EntryRow& row, EntryField field, const QString& text, const TypingHabits& habits);
Edit withWhy(Edit edit, const QString& why);
/// No value for a line that is an amendment itself.
std::optional<Edit> withdrawalOf(const EntryRow& row, const QString& why);

}  // namespace midden::ui
