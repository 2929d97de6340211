// SPDX-License-Identifier: GPL-3.0-or-later
// Readings in memory as a table SQLite can read, so that one INSERT … SELECT stores thousands of them.
#pragma once

#include <span>

#include "core/records/entries.h"
#include "core/store/sqlite/database.h"

namespace midden {

/// Makes the table `reading_slice(?)` known to a connection.
void provideReadingSlice(DatabaseFile& file);

/// Stores readings of one series, in time order, at instants where the series has none. Each must be within the range
/// of the reading table. When it throws, part of them may be stored: a transaction must stand around it.
void storeSlice(DatabaseFile& file, std::int64_t series, std::span<const RawReading> readings);

}  // namespace midden
