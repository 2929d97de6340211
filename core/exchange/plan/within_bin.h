// SPDX-License-Identifier: GPL-3.0-or-later
// What levels and harvests must keep to, besides what their rows say by themselves: the size of the bin they are of,
// and that nothing is harvested before anything was fed. What is not known of a bin bounds nothing.
#pragma once

#include "core/exchange/plan/import.h"

namespace midden {

/// What is known of a batch that levels and harvests are to be taken in for.
struct FedBounds {
    const Batch& batch;
    std::vector<Bin> bins;             ///< with those this import makes
    std::optional<Instant> firstFeed;  ///< of the batch, additions of this import among them
};

/// No batch = one that is still to be begun.
std::optional<Instant> firstFeed(const Logbook& logbook, std::optional<BatchId> batch, const StagedImport& staged);

/// Throws RefusedImport at the first row that cannot be.
void expectWithinBins(const ImportRequest& request, const StagedImport& staged, const FedBounds& bounds);

/// The same of what is said of one bin: no height inside may lie above its rim. `what` is the column. No refusal: no
/// value.
std::optional<Problem> aboveTheRim(std::string_view what, std::optional<double> height, const Bin& bin);

}  // namespace midden
