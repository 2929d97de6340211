// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/sqlite/database.h"

namespace midden {

/// The lasting key a withdrawn bin, probe or batch had: it gets it back when it is put back under its old number.
std::optional<std::string> formerKey(DatabaseFile& file, EntryKind kind, std::int64_t id);
/// Of the row just inserted.
std::int64_t lastId(DatabaseFile& file);
Bin binOf(DatabaseFile& file, BinId id);
Probe probeOf(DatabaseFile& file, ProbeId id);
/// Positions of a bin, set up or read, alphabetically.
std::vector<PlaceSetting> placesOf(DatabaseFile& file, BinId bin);

}  // namespace midden
