// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

#include "core/records/batch_record.h"

namespace midden {

/// ∫ 2^((T−10)/10) dt in days, over the pointwise maximum of the tracks joined by straight lines; intervals longer
/// than `maxGap` are left out. Rate doubling per 10 °C is common practice, no source, and holds to about 45 °C at
/// most: a teaching figure, never a verdict.
double daysAtTenCelsius(std::span<const Track> tracks, Seconds maxGap);

}  // namespace midden
