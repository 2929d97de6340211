// SPDX-License-Identifier: GPL-3.0-or-later
// What people type into a line, read once into a value or refused in words.
#pragma once

#include <QString>
#include <optional>

#include "core/quantities/result.h"
#include "core/quantities/zone.h"

namespace midden::ui {

/// "4.5", "4,5", "12": a number from 0 up. Both decimal marks work; thousands separators do not exist.
Result<double> readAmount(const QString& typed);

/// A date and time of day as people write them: "08:10", "yesterday 18:00", "4 March 08:10", "4/3/2026 8:10",
/// "2026-03-04 08:10". Day and month alone mean the latest such day that is not after today; an order of day and month
/// that the digits do not settle is the locale's; a year of two digits is asked about, never guessed.
Result<WallTime> readWallTime(const QString& typed, const WallTime& now);

/// The same as an instant. A time the clocks skipped is refused; one they repeated asks for its offset.
Result<Moment> readMoment(const QString& typed, const TimeZone& zone, Moment now);
/// A moment for a typed day without a time of day, taken at 00:00; with a time, as readMoment.
Result<Moment> readDay(const QString& typed, const TimeZone& zone, Moment now);

/// "4 March 2026 08:10", in the locale's month names: what readMoment reads back.
QString typedForm(Moment moment);
/// "4 March 2026"
QString typedDay(Moment moment);

}  // namespace midden::ui
