// SPDX-License-Identifier: GPL-3.0-or-later
// Why every stretch of a batch was credited or not.
#pragma once

#include "core/criteria/judged_readings.h"

namespace midden {

/// From the first monitored reading to the last, without holes. What is credited is exactly `runs` of the step: every
/// position's runs at once.
std::vector<Evidence> evidenceOf(const Step& step, const JudgedReadings& judged);

}  // namespace midden
