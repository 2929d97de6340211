// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string>

#include "core/review/batch_review.h"

namespace midden {

/// The reviews as "middenbook.review/1": other people's scripts read this, so fields are only ever added.
/// Hours and masses are unrounded numbers, instants ISO 8601 in UTC, temperatures °C. In text that is
/// not UTF-8, as only a damaged logbook holds, the wrong bytes become replacement characters.
std::string reviewJson(std::span<const BatchReview> reviews);

}  // namespace midden
