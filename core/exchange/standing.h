// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/logbook/logbook.h"

namespace midden {

/// While a batch stands in a bin: at from <= t < until.
struct Standing {
    Instant from;
    Instant until;
    BatchId batch{};
};

/// Who stands in the bin when, in time order: a stay ends with the batch's next one, with its finish, or when another
/// batch comes.
std::vector<Standing> standingsIn(const Logbook& logbook, BinId bin);

}  // namespace midden
