// SPDX-License-Identifier: GPL-3.0-or-later
// Making a copy of a book under a passing name, and giving it its own once it is good.
#pragma once

#include "core/logbook/database.h"

namespace midden {

/// A file of our own making, gone again when this goes, unless it was given its name.
class PassingFile {
  public:
    /// A name beside `wanted` that nothing else has.
    explicit PassingFile(const std::filesystem::path& wanted);
    PassingFile(const PassingFile&) = delete;
    PassingFile& operator=(const PassingFile&) = delete;
    ~PassingFile();

    const std::filesystem::path& path() const { return file_; }
    /// Never replaces a file: false when one stands there by now.
    bool takeName(const std::filesystem::path& name);

  private:
    std::filesystem::path file_;
};

/// How the names of such files end, for whoever tidies up after a crash.
constexpr std::string_view passingEnd = ".part";

/// Copies every page as of one moment, whatever others write meanwhile, and looks the copy through. Throws
/// LogbookError; a book that does not come out sound is damaged.
void copyWhole(DatabaseFile& from, const std::filesystem::path& to);

/// Writes all that `from` holds into the book `to` as one transaction of that file.
void copyInto(const std::filesystem::path& from, const std::filesystem::path& to);

/// Its last part, in UTF-8.
std::string fileName(const std::filesystem::path& file);

}  // namespace midden
