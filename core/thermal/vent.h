// SPDX-License-Identifier: GPL-3.0-or-later
// The heat that leaves a bin with its air. The heat balance leaves it out; this says how large it can be.
#pragma once

namespace midden {

/// The pressure of water vapour over water at −10 to 100 °C, kPa: IAPWS R7-97(2012), equation 30, table 34.
double saturationKilopascals(double celsius);

/// What air carries away that comes in at `outside` with so much humidity (0 to 1) and leaves saturated at `inside`, W
/// for so many cubic metres an hour of leaving air, at 101.325 kPa. The difference of the enthalpies of moist air,
/// 1.006·t + w·(2501 + 1.86·t) kJ per kg of dry air with w = 0.622·p/(101.325 − p): the usual equations of
/// psychrometry, the same as the ASHRAE Handbook's (from memory, unverified; a test compares them with steam tables).
double ventWatts(double cubicMetresAnHour, double inside, double outside, double humidityOutside = 0.8);

/// Of that the part that went into turning water to vapour, W.
double evaporationWatts(double cubicMetresAnHour, double inside);

}  // namespace midden
