// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>

#include "core/exchange/import.h"

namespace midden {

/// Stores the readings of every place; runs inside the import's transaction. Throws RefusedImport with file and line
/// when the book holds another value.
void storeReadings(Logbook& logbook, const std::map<Place, StagedPlace>& places,
                   const std::vector<StagedColumn>& columns, ImportOutcome& outcome);

/// Counts the readings that belong to another batch, or to none.
void countByBatch(const Logbook& logbook, BatchId batch, const std::map<Place, StagedPlace>& places,
                  ImportOutcome& outcome);

}  // namespace midden
