// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/plan/import.h"

namespace midden {

/// Makes bins, and fills in what the book does not know of one; a contradiction is refused.
void storeBins(Logbook& logbook, const ImportRequest& request, const StagedImport& staged, ImportOutcome& outcome);

/// Marks positions as spot checks or as read every time, whatever they were before.
void storePositions(Logbook& logbook, const StagedImport& staged, ImportOutcome& outcome);

}  // namespace midden
