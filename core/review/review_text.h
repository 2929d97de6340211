// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "core/quantities/zone.h"
#include "core/review/batch_review.h"

namespace midden {

/// The review of one batch for a person at a terminal: plain English, local times of `zone`.
std::string reviewText(const BatchReview& review, const TimeZone& zone);

}  // namespace midden
