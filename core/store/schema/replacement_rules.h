// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/sqlite/database.h"

namespace midden {

/// Writes the rules that refuse to put a row in the place of another, into the file itself. INSERT OR REPLACE and
/// UPDATE OR REPLACE take the row that is in the way without a DELETE, so no amendment would tell of it. Settings are
/// left out: they say what holds now, and are changed without a trace by anybody.
void writeReplacementRules(DatabaseFile& file);

}  // namespace midden
