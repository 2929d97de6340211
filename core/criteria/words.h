// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/criteria/judgement.h"

namespace midden {

/// "shown", "shown-within-error", "not-shown": as files and scripts name them.
const char* word(Verdict verdict);
/// "held", "not-held", "not-recorded"
const char* word(ConditionState state);

}  // namespace midden
