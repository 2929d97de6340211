// SPDX-License-Identifier: GPL-3.0-or-later
// The copies a computer keeps of its books by itself. Where its folder of copies lies is said by the caller.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/store/care/rotation.h"

namespace midden {

/// One copy: a whole logbook of its own.
struct KeptCopy {
    Instant made;
    std::filesystem::path file;
    std::uintmax_t bytes = 0;
};

/// A folder of copies and the book they are copies of, as it was called when the last one was made.
struct CopiedBook {
    std::filesystem::path book;
    std::filesystem::path folder;
};

/// What the copies of the book at this whole path lie in: its name and a number that no other path has.
std::string copyFolderName(const std::filesystem::path& book);

/// The copies in a folder, newest first.
std::vector<KeptCopy> keptCopies(const std::filesystem::path& folder);
/// Every book that has copies in `place`, by name.
std::vector<CopiedBook> copiedBooks(const std::filesystem::path& place);

/// Copies the book as it stands now into `folder`, looks the copy through, and only then lets older ones go.
/// Nothing: the newest copy holds the same already. Throws LogbookError; the copies made before are untouched then.
/// Opens the book itself, so it may run beside the thread that writes in it.
std::optional<KeptCopy> keepCopy(const std::filesystem::path& book, const std::filesystem::path& folder, Instant now);

}  // namespace midden
