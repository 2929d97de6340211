// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/certificate/certificate.h"

namespace midden {

/// What the readings show of one criterion, in words.
Finding findingOf(const Judgement& judgement, const BatchRecord& record, const TimeZone& zone);

}  // namespace midden
