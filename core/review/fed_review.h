// SPDX-License-Identifier: GPL-3.0-or-later
// What a review says of a batch that is fed on top and emptied at the base. A reckoning of ours: never a verdict.
#pragma once

#include <string>
#include <vector>

#include "core/layers/reckoning.h"
#include "core/recipe/material.h"
#include "core/review/stall.h"

namespace midden {

/// Litres that nobody measured: of the additions of one material.
struct AssumedLitres {
    std::string material;
    LitresFrom from = LitresFrom::assumed;
    std::int64_t additions = 0;
    double litres = 0;
};

struct FedReview {
    Celsius threshold;  ///< of the book's target
    Seconds hold;       ///< that it asks for
    Instant asOf;       ///< of the last entry: what `reckoning` holds of
    FedReckoning reckoning;
    std::vector<AssumedLitres> assumed;               ///< by material
    std::vector<std::string> positionsWithoutHeight;  ///< read, but nobody said how high they are: they show nothing
};

/// A fed batch as the layers are reckoned from it: in the bin where it stands, or stood last. Moving it there counts as
/// a turning, and what was read in a bin before shows nothing. Spot checks show as much as any reading. Keeps looking
/// at the samples of `record`.
FedRecord fedRecordOf(const BatchRecord& record, const HoldTarget& target, const Materials& materials);

/// Of a batch that is fed; whether it is, is for the caller to ask.
FedReview fedReviewOf(const BatchRecord& record, const HoldTarget& target, const Materials& materials);

}  // namespace midden
