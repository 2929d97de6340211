// SPDX-License-Identifier: GPL-3.0-or-later
// A straight trend that one wrong reading cannot bend.
#pragma once

#include <optional>
#include <span>

#include "core/thermal/heat_balance.h"

namespace midden {

/// A line through readings: the median of all slopes between two of them (Theil 1950, Sen 1968), through the median of
/// what is left.
struct Trend {
    Instant origin;
    double atOrigin = 0;  ///< °C
    double perHour = 0;   ///< K/h

    double at(Instant instant) const { return atOrigin + perHour * (instant - origin).hours(); }
    /// When a falling line reaches `level` from above, after `from`; no value when it never does.
    std::optional<Instant> reaches(double level, Instant from) const;
};

/// No value with fewer than two points at different instants.
std::optional<Trend> trendOf(std::span<const HeatPoint> points);

/// When the points fall through `level`, provided that they still do so by `deadline` with any single point left out:
/// so one mistyped reading raises nothing, and neither do fewer than three.
std::optional<Instant> fallsThrough(std::span<const HeatPoint> points, double level, Instant deadline);

}  // namespace midden
