// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "core/logbook/logbook.h"

namespace midden::app {

/// A stand-in for a logbook on which a change can be tried without touching the file: a copy in the folder for
/// temporary files, or an empty book in memory when there is no file. The copy goes when this does.
class DryBook {
  public:
    explicit DryBook(std::filesystem::path logbook);
    DryBook(const DryBook&) = delete;
    DryBook& operator=(const DryBook&) = delete;
    ~DryBook();

    Logbook open() const;

  private:
    std::filesystem::path logbook_;
    std::filesystem::path folder_;  ///< empty = in memory
};

}  // namespace midden::app
