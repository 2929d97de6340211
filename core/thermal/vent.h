// SPDX-License-Identifier: GPL-3.0-or-later
// The heat that leaves a bin with its air. The heat balance has it where the air is known; this says how large it is or
// can be.
#pragma once

#include <optional>

#include "core/records/entries.h"

namespace midden {

/// The pressure of water vapour over water at −10 to 100 °C, kPa: IAPWS R7-97(2012), equation 30, table 34.
double saturationKilopascals(double celsius);

/// What moist air holds, kJ in a kilogram of its dry part, over that of dry air at 0 °C: 1.006·t + w·(2501 + 1.86·t)
/// with w = 0.622·p/(101.325 − p). `humidity` 0 to 1.
double moistAirEnthalpy(double celsius, double humidity);

/// What air carries away that comes in at `outside` with so much humidity (0 to 1) and leaves saturated at `inside`, W
/// for so many cubic metres an hour of leaving air, at 101.325 kPa. The difference of the enthalpies of moist air,
/// 1.006·t + w·(2501 + 1.86·t) kJ per kg of dry air with w = 0.622·p/(101.325 − p): the usual equations of
/// psychrometry, the same as the ASHRAE Handbook's (from memory, unverified; a test compares them with steam tables).
double ventWatts(double cubicMetresAnHour, double inside, double outside, double humidityOutside = 0.8);

/// Of that the part that went into turning water to vapour, W.
double evaporationWatts(double cubicMetresAnHour, double inside);

/// Cubic metres an hour of warm air that a chimney's draw can push out of an opening of so many cm², with a way in that
/// is as large or larger so many centimetres below it: Cd·A·√(2·g·h·(Ti − To)/To) with Cd = 0.65 and temperatures in
/// kelvins; 0 where it is no warmer inside. The formula of the ASHRAE Handbook, Fundamentals (1997), page 25.13,
/// equation 37, as quoted (isolution.pro/it/q/er13033648), which has Ti below the line for the volume of the colder
/// air. Cd of 0.65 to 0.70 as quoted (liquisearch.com/stack_effect). It is the most that can be: a heap lets far less
/// through.
double stackCubicMetresAnHour(double squareCentimetres, double riseCentimetres, double inside, double outside);

/// The air that goes through a bin, as it is set up.
struct AirThrough {
    double cubicMetresAnHour = 0;  ///< of leaving air
    bool isMost = false;           ///< of two openings: the most it can be; else known, from changes of air
};

/// From the bin's changes of air an hour and its volume, else from its openings. No value unless one or the other is
/// set up.
std::optional<AirThrough> airThrough(const Bin& bin, double inside, double outside);

}  // namespace midden
