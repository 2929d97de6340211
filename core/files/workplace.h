// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "core/files/descriptor.h"
#include "core/files/file_trouble.h"

namespace midden {

/// A folder of our own beside the place a file is to have, in which it is made before it gets its name. Nobody else may
/// look into it, and it is gone with all that is left in it when this goes. One whose program was killed is removed by
/// the next that works in the same place: such a folder says what it is, and is locked as long as it is used.
class Workplace {
  public:
    /// Beside `wanted`, a whole name. Throws FileTrouble.
    explicit Workplace(const std::filesystem::path& wanted);
    Workplace(const Workplace&) = delete;
    Workplace& operator=(const Workplace&) = delete;
    ~Workplace();

    /// Where the file is made meanwhile, called as it will be.
    const std::filesystem::path& making() const { return making_; }

  private:
    void settle(const std::filesystem::path& wanted);

    std::filesystem::path folder_;
    std::filesystem::path making_;
    Descriptor mark_{-1};
};

/// Removes the folders of programs that were killed while they worked in `place`. Whatever is not certainly such a
/// folder, of this person and this computer and in use by nobody, is left alone.
void tidyUpAfterKilled(const std::filesystem::path& place) noexcept;

}  // namespace midden
