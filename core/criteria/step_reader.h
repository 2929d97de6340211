// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/criteria/criterion.h"
#include "core/criteria/json_fields.h"

namespace midden {

/// Reads one step of an alternative; throws RefusedField. `earlier` are the steps before it.
Step readStep(JsonFields fields, const std::vector<Step>& earlier);

}  // namespace midden
