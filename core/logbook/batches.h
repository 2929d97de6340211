// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/logbook/tenure.h"

namespace midden {

/// The batch as people see it: a start nobody gave stands at its earliest entry.
std::optional<Batch> shownBatch(DatabaseFile& file, BatchId id);
/// Its own finish, or the instant another batch took the bin it stood in last.
std::optional<Instant> finishOf(const Batch& batch, const std::vector<Tenure>& tenures);

}  // namespace midden
