// SPDX-License-Identifier: GPL-3.0-or-later
// What a thermometer should have said: the corrections that its ice and boiling checks ask for.
#pragma once

#include <span>
#include <vector>

#include "core/records/entries.h"

namespace midden {

/// Pressure of the air in hPa at a height above the sea, from −500 to 9,000 m, on a day of the US Standard
/// Atmosphere 1976. A real day differs by up to 3 %, 0.8 °C of the boiling point: a barometer is better.
double standardPressureHectopascals(double altitudeMetres);

/// The temperature at which water boils under a station pressure of 300 to 1,100 hPa, in °C (IAPWS-IF97, region 4).
double boilingPointCelsius(double stationPressureHectopascals);

/// The same for a boiling check: from its pressure, else from its altitude, else at sea level.
double boilingPointCelsius(const ThermometerCheck& check);

/// Refuses a check that cannot be right: a pressure or altitude outside the ranges above, or a reading more than 20 °C
/// from the truth (the thermometer is broken, or the number is a slip of the pen).
Result<ThermometerCheck> plausible(ThermometerCheck check);

/// From `since` on, true = (raw − zero) · factor.
struct Correction {
    Instant since;
    Kelvins zero;
    double factor = 1;  ///< exactly 1 unless both points are known

    /// Exact where only an offset is applied, else rounded to the nearest ninety-thousandth of a degree.
    Celsius corrected(Celsius raw) const;
    bool changesNothing() const { return zero == Kelvins{} && factor == 1; }
};

/// The corrections of one thermometer over time.
class Calibration {
  public:
    Calibration() = default;
    /// `checks` are those of one probe, in any order. In force at an instant are the latest ice and the latest boiling
    /// check among those taken at or before it, or said by the steward to reach back to it. A
    /// check that is not plausible corrects nothing.
    explicit Calibration(std::span<const ThermometerCheck> checks);

    /// What `raw`, read at `at`, was really.
    Celsius corrected(Celsius raw, Instant at) const { return inForce(at).corrected(raw); }
    const Correction& inForce(Instant at) const {
        return corrections_.size() == 1 ? corrections_.front() : latestBy(at);
    }

  private:
    const Correction& latestBy(Instant at) const;

    std::vector<Correction> corrections_{Correction{{INT64_MIN}, {}, 1}};  // in time order, the first since ever
};

}  // namespace midden
