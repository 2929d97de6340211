// SPDX-License-Identifier: GPL-3.0-or-later
// The readings of an import, from "the batch's bin" and bin names to the places of the book.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/exchange/import.h"

namespace midden {

/// Finds the bin of that name, or makes it.
using BinByName = std::function<BinId(const std::string& name)>;

/// Where the batch stood at an instant: its stays, the first reaching back to the beginning.
BinId binAt(const std::vector<Stay>& stays, Instant at);

/// The staged rows by place, each in time order with one row an instant. Takes the rows out of `staged`.
FileResult<std::map<Place, StagedPlace>> placeReadings(StagedReadings& staged, const std::vector<Stay>& stays,
                                                       const BinByName& binNamed);

/// The first reading inside a bin while the batch stood there, as the rows have it.
std::optional<Moment> earliestOf(const std::map<Place, StagedPlace>& places, const std::vector<StagedColumn>& columns,
                                 const std::vector<Stay>& stays);

}  // namespace midden
