// SPDX-License-Identifier: GPL-3.0-or-later
// The exact answer of the heat balance over a stretch of time: T(end) = own·T(start) + fromOutside + perRate·q.
#pragma once

#include <optional>

#include "core/thermal/heat_balance.h"

namespace midden {

struct HeatResponse {
    double own = 1;
    double fromOutside = 0;  ///< °C
    double perRate = 0;      ///< °C per K/h

    double after(double start, double rate) const { return own * start + fromOutside + perRate * rate; }
};

/// The outside temperature along a stretch: straight lines between these, the first and last at its ends.
using OutsidePath = std::vector<HeatPoint>;

/// No value where the outside temperature is not known at either end.
std::optional<OutsidePath> outsidePath(const HeatSeries& series, Instant from, Instant to, Seconds reach);

HeatResponse responseOver(const OutsidePath& outside, double tauHours);

/// Was anything added or aerated after `from` and up to `to`?
bool isDisturbed(const HeatSeries& series, Instant from, Instant to);

}  // namespace midden
