// SPDX-License-Identifier: GPL-3.0-or-later
// Readings between file and book, and what they share.
#pragma once

#include <string>
#include <vector>

#include "core/exchange/staging/staged_rows.h"
#include "core/quantities/temperature.h"

namespace midden {

/// What many rows share: how they were written, with which thermometer, and in which file.
struct StagedColumn {
    TemperatureUnit unit = TemperatureUnit::celsius;
    UtcOffset offset;
    std::string probe;  ///< empty = not said
    std::string file;

    auto operator<=>(const StagedColumn&) const = default;
};

/// Where rows of a file belong, as the file says it.
struct StagedWhere {
    enum class Bin { named, ofTheBatch, wholeSite };
    Bin kind = Bin::ofTheBatch;
    std::string bin;       ///< when named
    std::string position;  ///< empty = outside air

    auto operator<=>(const StagedWhere&) const = default;
};

/// A remark beside a reading.
struct StagedNote {
    Instant at;
    std::string text;
};

struct StagedPlace {
    StagedWhere where;
    std::vector<StagedNote> notes;
};

struct StagedReadings {
    std::vector<StagedPlace> places;
    std::vector<StagedColumn> columns;
    StagedRows rows;  ///< a list for each place
};

}  // namespace midden
