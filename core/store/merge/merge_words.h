// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "core/quantities/zone.h"
#include "core/store/logbook.h"

namespace midden {

/// "12 readings, 1 addition and 1 bin are new here; 2 entries were changed as the other copy has them."
std::string arrivalsInWords(const MergeOutcome& outcome);
/// "57 °C, ada, 5 March 2026 08:10", "withdrawn, grace, …".
std::string inWords(const MergeConflict::Side& side, const TimeZone& zone);

}  // namespace midden
