// SPDX-License-Identifier: GPL-3.0-or-later
// How high the surface stands in a bin, as an observation keeps it.
#pragma once

#include "core/records/dated_entries.h"

namespace midden {

/// In cm above the floor; one and a half times the highest bin there may be.
inline constexpr NumberRange levelRange{0, 1'500, "a level in cm above the floor, from 0 to 1500"};

/// What an observation of the kind `level` measured, in cm above the floor. No value: it is of another kind, or says no
/// number within the range.
std::optional<double> levelOf(const Observation& observation);

/// As an observation keeps it: digits with a decimal point, as few as give the same number back.
std::string levelText(double centimetres);

}  // namespace midden
