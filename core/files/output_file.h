// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string_view>

#include "core/files/destination.h"
#include "core/files/workplace.h"

namespace midden {

/// A file that is written where a person asked for it: under a new name, or in the place of one that the same command
/// wrote before, known by what is in it. Never in the place of anything else.
class OutputFile {
  public:
    /// Is it a file that this command wrote, as it left it?
    using IsOurs = std::function<bool(std::string_view content)>;

    /// Throws FileTrouble when the file may not come to stand there; nothing is written yet.
    OutputFile(const std::filesystem::path& named, IsOurs isOurs);

    /// Writes all of it under a passing name beside its place, and puts it on the disk. Throws FileTrouble.
    void write(std::string_view bytes);
    /// Gives what was written its name. Throws FileTrouble when it cannot have it; then all is as it was.
    void takeName();

  private:
    std::filesystem::path named_;
    Destination destination_;
    std::optional<Workplace> workplace_;
};

}  // namespace midden
