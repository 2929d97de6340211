// SPDX-License-Identifier: GPL-3.0-or-later
// What the ice and boiling checks of a thermometer say, in words.
#pragma once

#include <QString>
#include <vector>

#include "core/quantities/zone.h"
#include "core/thermal/calibration.h"

namespace midden::ui::checks {

/// In what unit, and what day it is.
struct Telling {
    TemperatureUnit unit = TemperatureUnit::celsius;
    TimeZone zone = TimeZone::utc();
    Moment now;
};

/// What the thermometer should have shown.
Celsius truthOf(const ThermometerCheck& check);
/// How far it read above that.
Kelvins errorOf(const ThermometerCheck& check);

/// "reads 0.5 °C high in ice", "reads right in ice"
QString errorWords(const ThermometerCheck& check, const Telling& telling);
/// "corrected by −0.5 °C"; with both points known: "corrected from two points: 55.0 °C becomes 54.6 °C".
QString correctionWords(const Correction& correction, const Telling& telling);
/// What holds since the newest check: "Reads 0.5 °C high in ice; readings from 28 February 2026 on are corrected by
/// −0.5 °C."
QString stateWords(const std::vector<ThermometerCheck>& all, const Telling& telling);
/// How the newest check differs from the one of its kind before it; empty when it is the first.
QString driftWords(const std::vector<ThermometerCheck>& all, const Telling& telling);
/// "" or that a check is due: none within a year.
QString overdueWords(const std::vector<ThermometerCheck>& all, const Telling& telling);
/// The source of that year.
QString overdueSource();

}  // namespace midden::ui::checks
