// SPDX-License-Identifier: GPL-3.0-or-later
// The readings of an import, from "the batch's bin" and bin names to the places of the book.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/exchange/plan/import.h"
#include "core/exchange/staging/row_stream.h"

namespace midden {

/// Finds the bin of that name, or makes it.
using BinByName = std::function<BinId(const std::string& name)>;

/// Where the batch stood at an instant: its stays, the first reaching back to the beginning.
BinId binAt(const std::vector<Stay>& stays, Instant at);

/// Which staged rows belong to which place of the book. Takes the notes out of `staged`, whose rows must be settled.
std::map<Place, PlacedRows> placeReadings(StagedReadings& staged, const std::vector<Stay>& stays,
                                          const BinByName& binNamed);

/// The first reading inside a bin while the batch stood there, or the first of its other entries.
FileResult<std::optional<Moment>> earliestEntry(const std::map<Place, PlacedRows>& places, const StagedImport& staged,
                                                const std::vector<Stay>& stays);

}  // namespace midden
