// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>

#include "core/exchange/plan/import.h"
#include "core/exchange/plan/row_progress.h"
#include "core/exchange/staging/row_stream.h"

namespace midden {

/// Stores the readings of every place; runs inside the import's transaction. Throws RefusedImport with file and line
/// when two rows contradict each other, or the book holds another value.
void storeReadings(Logbook& logbook, std::map<Place, PlacedRows>& places, const StagedReadings& staged,
                   ImportOutcome& outcome, RowProgress& watch);

/// Refuses the row, one of `rows`, that has another value than the book.
[[noreturn]] void refuseConflict(const ReadingConflict& conflict, std::span<const StagedReading> rows,
                                 const std::vector<StagedColumn>& columns);

/// Counts the readings just stored that belong to another batch, or to none.
void countByBatch(const Logbook& logbook, BatchId batch, const std::map<Place, PlacedRows>& places,
                  const StagedReadings& staged, ImportOutcome& outcome);

}  // namespace midden
