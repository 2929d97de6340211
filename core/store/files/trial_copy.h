// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "core/files/workplace.h"
#include "core/store/logbook.h"

namespace midden {

/// A copy of a book in which changes can be tried. It goes when this does, or after a kill by the next program that
/// works in that folder.
class TrialCopy {
  public:
    /// In `folder`, one for temporary files. Throws LogbookError.
    TrialCopy(const std::filesystem::path& book, const std::filesystem::path& folder);

    const std::filesystem::path& file() const { return workplace_.making(); }
    /// Throws LogbookError.
    Logbook open() const { return Logbook::open(file(), Logbook::Mode::readWrite); }

  private:
    Workplace workplace_;
};

}  // namespace midden
