// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/sqlite/database.h"

namespace midden {

/// SQLite's own json_object() may not be used by triggers while the schema is not trusted (SQLite 3.40 marks it unsafe,
/// though it is harmless). This puts one of ours in its place on this connection; other programs use SQLite's.
void provideJsonObject(DatabaseFile& file);

}  // namespace midden
