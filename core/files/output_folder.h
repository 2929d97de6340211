// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "core/files/destination.h"
#include "core/files/workplace.h"

namespace midden {

/// A folder of files that is written where a person asked for it: under a new name, or in the place of an empty folder.
class OutputFolder {
  public:
    /// Makes the folders above it that are absent. Throws FileTrouble.
    explicit OutputFolder(const std::filesystem::path& named);
    OutputFolder(const OutputFolder&) = delete;
    OutputFolder& operator=(const OutputFolder&) = delete;
    ~OutputFolder();

    /// Where the files are written meanwhile.
    const std::filesystem::path& making() const { return workplace_->making(); }
    /// Puts all of it on the disk and gives it its name. Throws FileTrouble; then nothing of it is left.
    void takeName();

  private:
    void makeAbove();
    void judge() const;
    void removeAbove() noexcept;

    std::filesystem::path named_;
    std::vector<std::filesystem::path> above_;  ///< made here, and empty again unless all is done; uppermost first
    Destination destination_;
    std::optional<Workplace> workplace_;
};

}  // namespace midden
