// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "core/review/season.h"
#include "core/store/logbook.h"

namespace midden::ui {

/// All batches of a book, by start.
struct Season {
    std::vector<SeasonBatch> batches;

    /// From the first start to the last finish or entry. No value without batches.
    std::optional<Interval> span() const;
};

/// Told which share of the batches is done, 0 to 1; says whether to go on.
using Going = std::function<bool(double share)>;

/// Reads and reviews one batch after the other, so that only one is in memory. Takes long for long batches.
/// No value when told to stop. Throws LogbookError.
std::optional<Season> loadSeason(const Logbook& logbook, const Going& going);

}  // namespace midden::ui
