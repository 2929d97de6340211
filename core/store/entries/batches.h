// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/entries/occupancy.h"
#include "core/store/state.h"

namespace midden {

/// The batch as people see it: a start nobody gave stands at its earliest entry.
std::optional<Batch> shownBatch(DatabaseFile& file, BatchId id);
/// Its own finish, or the instant another batch took the bin it stood in last.
std::optional<Instant> finishOf(const Batch& batch, const std::vector<Occupancy>& occupancies);

std::vector<BinId> binsOf(const std::vector<Stay>& stays);
std::vector<Occupancy> occupanciesInAll(DatabaseFile& file, std::vector<BinId> bins);
/// Two batches cannot stand in one bin: no entry of another batch may change hands by this one's stays. Undoing
/// is free of this: when this batch left, the entries it gives an account of fell to whoever stood there before.
/// `before` are the occupancies of the batch's bins before it was stored.
void refuseTakeover(Logbook::State& state, const Batch& batch, const std::vector<Occupancy>& before);

/// “spring”
std::string inQuotes(const std::string& name);

}  // namespace midden
