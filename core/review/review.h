// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "core/criteria/gap_rule.h"
#include "core/review/batch_review.h"

namespace midden {

/// What a review is asked for.
struct ReviewQuestions {
    std::vector<Celsius> thresholds{Celsius::ofTenThousandths(550'000)};  ///< answered in this order
    Seconds maxGap = ordinaryMaxGap;                                      ///< for `thresholds` and `gaps` only
    std::vector<Criterion> criteria;                                      ///< judged in this order
    StallSettings stalls;
    Materials materials = builtInMaterials();  ///< what the additions are made of
};

/// A function of the record alone: no clock, no file. Time and memory grow linearly with the readings.
BatchReview reviewOf(const BatchRecord& record, const ReviewQuestions& questions);

/// Time at or above one threshold, per position and for all of them at once. Ignores additions.
ThresholdReview thresholdReview(std::span<const Monitored> positions, Celsius threshold, Seconds maxGap);

}  // namespace midden
