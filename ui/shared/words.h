// SPDX-License-Identifier: GPL-3.0-or-later
// Phrases that more than one screen says, with the numbers in the person's own decimal mark.
#pragma once

#include <QString>
#include <optional>
#include <string>

#include "core/quantities/temperature.h"
#include "core/quantities/time.h"
#include "core/records/entries.h"

namespace midden::ui::words {

/// UTF-8 as core writes it.
QString text(const std::string& utf8);
std::string utf8(const QString& text);

/// A number core has printed with a point, in the locale's decimal mark, with a true minus sign.
QString localised(const std::string& number);
QString number(double value, int decimals);

/// "°C", "°F"
QString unitName(TemperatureUnit unit);
/// "58.5": one decimal, in that unit, without it.
QString degrees(Celsius temperature, TemperatureUnit unit);
/// "+2.5", "−0.5", "0.0": a difference in degrees of that unit.
QString change(Kelvins difference, TemperatureUnit unit);
/// "58.5 °C"
QString withUnit(Celsius temperature, TemperatureUnit unit);
/// "137 °F": as it was written, in the locale's decimal mark.
QString written(WrittenTemperature temperature);

/// "just now", "40 min ago", "23 h ago", "3 days ago"
QString ago(Seconds age);
/// "40 min", "41 h", "3 days"
QString lasting(Seconds duration);
/// "52 h", "0 h": whole hours, rounded down so that a target is never claimed early.
QString wholeHours(Seconds duration);
/// "52 of 72 h"
QString hoursOf(Seconds credited, Seconds target);

/// "08:10"
QString clockTime(Moment moment);
/// "Wed 4 March 08:10", with the year when it is not that of `today`.
QString dayAndTime(Moment moment, Moment today);
/// "Wed 4 March", with the year when it is not that of `today`.
QString dayNear(Moment moment, Moment today);
/// "08:10 today", "08:10 tomorrow", "08:10 on Wed 4 March"
QString timeNear(Moment moment, Moment today);

QString kindOf(AerationKind kind);

/// A name as a button or a menu says it: an "&" in it is an "&" and no key.
QString onButton(QString name);
/// With line breaks between words, for a tip, which Qt does not wrap.
QString onSeveralLines(const QString& text);

}  // namespace midden::ui::words
