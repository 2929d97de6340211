// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/review/causes.h"

namespace midden {

/// Everything the record says of a stall up to `end`, by the names resources/causes.json uses:
/// squeeze, smell (words as written, lower case) · moisture_percent, carbon_nitrogen (of what was in it by then) ·
/// volume_litres · wall_millimetres · days_since_air, days_since_feed, days_since_check · hot_days (since first hot) ·
/// kitchen_percent (kitchen waste in all that went in, by weight), last_feed_percent (the last feed, all additions of
/// twelve hours, by what was in before) · of a fed batch fed_percent_of_week (the last four weeks, by the least that
/// should hold its target) and last_feed_percent_of_week (the last feed, by the most) · peak, spread, outside_celsius,
/// excess (°C) · heat (unchanged, falling, stopped) · weather_alone (yes) · reheated (yes, no: within the remedy's time
/// of the last turning) · handled (what was done before the dip began).
Facts factsOf(const BatchRecord& record, const Stall& stall, Instant end, const StallSettings& settings,
              const Materials& materials);

}  // namespace midden
