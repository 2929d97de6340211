// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/sqlite/database.h"

namespace midden {

/// How many entries of the batch were ever corrected or withdrawn.
std::int64_t amendedEntries(DatabaseFile& file, BatchId batch);
/// How many were typed more than a day after their own instant.
std::int64_t lateEntries(DatabaseFile& file, BatchId batch);

}  // namespace midden
