// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "core/exchange/csv/refusal.h"
#include "core/exchange/csv/scratch_file.h"

namespace midden {

/// What a CSV file of one batch holds.
enum class FileKind { readings, additions, aerations, observations, harvests };

/// What the beginning of a file tells.
struct FileHead {
    FileKind kind = FileKind::readings;
    bool hasLocalTimes = false;  ///< among its first rows
    bool saysUnit = false;       ///< its header names °C or °F
};

/// Recognises a file by its header row. Refused: one that fits no kind, with what each of them needs.
FileResult<FileHead> sniffHeader(const std::filesystem::path& file,
                                 const std::filesystem::path& scratchFolder = usualScratchFolder);

}  // namespace midden
