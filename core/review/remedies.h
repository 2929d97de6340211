// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/review/rounds.h"
#include "core/review/stall.h"

namespace midden {

/// The remedies logged from the stall's beginning to `end`, and what the readings say of each: it worked when the bin
/// was back at the hot line within the settings' time, did not when a reading after that time, or the stall's whole
/// length, shows otherwise. With no reading to tell by it is too early to say.
std::vector<RemedyOutcome> remediesOf(const BatchRecord& record, const Stall& stall, Instant end,
                                      const StallSettings& settings);

}  // namespace midden
