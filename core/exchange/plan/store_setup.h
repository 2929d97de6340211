// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/plan/import.h"

namespace midden {

/// Makes bins, and fills in what the book does not know of one; a contradiction is refused.
void storeBins(Logbook& logbook, const ImportRequest& request, const StagedImport& staged, ImportOutcome& outcome);

/// Marks positions as spot checks or as read every time, and says how high they are, whatever was said before. No
/// height in a row leaves the one that is there. One above the bin's rim is refused.
void storePositions(Logbook& logbook, const ImportRequest& request, const StagedImport& staged, ImportOutcome& outcome);

}  // namespace midden
