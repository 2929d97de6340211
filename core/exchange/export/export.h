// SPDX-License-Identifier: GPL-3.0-or-later
// A whole logbook as CSV files that import reads back.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "core/store/logbook.h"

namespace midden {

/// How much was written.
struct ExportOutcome {
    std::int64_t readings = 0;
    std::int64_t batches = 0;
    std::int64_t files = 0;
};

/// Writes everything into `folder`, which must be absent or empty: one folder for each batch, and beside them what all
/// batches share. All of it appears at once, or nothing. Throws FileTrouble when the folder is not empty, or cannot
/// be written.
ExportOutcome exportLogbook(const Logbook& logbook, const std::filesystem::path& folder);

}  // namespace midden
