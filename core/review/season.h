// SPDX-License-Identifier: GPL-3.0-or-later
// All batches of a book on one time line, and what its bins have done: figures for looking back at a season.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/review/batch_review.h"

namespace midden {

/// One batch as the season shows it.
struct SeasonBatch {
    BatchId id{};
    std::string name;
    std::string bin;  ///< where it stands, or stood last
    Interval stood;   ///< from its start to its finish; while it stands, to its last entry
    bool finished = false;
    bool fed = false;                        ///< no rule is ever judged by it
    IntervalSet windows;                     ///< the credited runs of the whole batch at the target's temperature
    Seconds longestRun;                      ///< as read, since raw material was added last: what `target` is judged by
    std::optional<Verdict> target;           ///< no value when the review did not judge it
    std::optional<Peak> peak;                ///< no value without a reading
    std::int64_t stalls = 0;                 ///< early coolings and bins that never heated
    double materialKilograms = 0;            ///< all that was weighed in, water included
    double wasteKilograms = 0;               ///< of that, what its material's entry calls kitchen or garden
    double kitchenKilograms = 0;             ///< of that, kitchen waste
    std::optional<double> compostKilograms;  ///< screened out, where the screening was written down as "62 kg"
};

/// `review` is of the same record; its first threshold is the target's and its criteria hold the target.
SeasonBatch seasonBatchOf(const BatchRecord& record, const BatchReview& review,
                          const Materials& materials = builtInMaterials());

/// What several batches come to.
struct SeasonSum {
    std::string bin;  ///< empty = of all bins
    std::int64_t batches = 0;
    std::int64_t shown = 0;  ///< of them, those whose readings show the target with the thermometer's error against it
    std::int64_t stalls = 0;
    Seconds longestRun;  ///< the longest of any of them
    double materialKilograms = 0;
    double wasteKilograms = 0;
    double kitchenKilograms = 0;             ///< of that, kitchen waste
    std::optional<double> compostKilograms;  ///< of the batches where it was written down
};

/// One sum a bin, alphabetically, then that of all of them. No batches: no sums.
std::vector<SeasonSum> sumsOf(std::span<const SeasonBatch> batches);

/// "62 kg", "62.5kg", "62,5 kg": kilograms. Anything else says no mass.
std::optional<double> kilogramsIn(std::string_view written);

}  // namespace midden
