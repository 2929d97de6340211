// SPDX-License-Identifier: GPL-3.0-or-later
// How the bins of a book stand.
#pragma once

#include "core/logbook/logbook.h"
#include "core/review/standing.h"

namespace midden {

/// Every bin in use with the batch that stands in it at `now`, and batches finished not long before that no
/// certificate has been issued for.
std::vector<BinStanding> standingsOf(const Logbook& book, Instant now);

}  // namespace midden
