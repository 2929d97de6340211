// SPDX-License-Identifier: GPL-3.0-or-later
// What a single field may hold besides times and temperatures.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/quantities/result.h"
#include "core/quantities/temperature.h"
#include "core/records/dated_entries.h"
#include "core/records/entries.h"

namespace midden {

/// Without blanks and line breaks around it.
std::string_view withoutBlanks(std::string_view text);

/// "12", "-0.5", "12,5": digits with at most one decimal mark and no exponent.
Result<double> parseDecimal(std::string_view cell);

/// An empty cell is no value.
Result<std::optional<double>> parseOptional(std::string_view cell, const NumberRange& range);

/// "c", "F", "°C", "celsius" …; an empty cell is no value.
Result<std::optional<TemperatureUnit>> parseUnit(std::string_view cell);

/// "yes" or "no"; an empty cell is no value.
Result<std::optional<bool>> parseYesNo(std::string_view cell);

Result<AerationKind> parseAerationKind(std::string_view cell);
std::string_view wordFor(AerationKind kind);
Result<ObservationKind> parseObservationKind(std::string_view cell);
std::string_view wordFor(ObservationKind kind);
Result<CheckKind> parseCheckKind(std::string_view cell);
std::string_view wordFor(CheckKind kind);

/// A text that a spreadsheet would take for a formula (it begins with = + - @, a tab or a line break) is written with
/// an apostrophe before it, and one that already has apostrophes there gets one more; reading takes one away again.
std::string guardedText(std::string_view text);
std::string_view unguardedText(std::string_view cell);

}  // namespace midden
