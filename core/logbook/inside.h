// SPDX-License-Identifier: GPL-3.0-or-later
// A look inside a book before it takes the place of another.
#pragma once

#include "core/logbook/logbook.h"

namespace midden {

struct BatchInside {
    std::string name;
    Moment started;
    std::optional<Moment> finished;
    std::int64_t readings = 0;
};

struct Inside {
    std::string group;
    std::vector<BatchInside> batches;  ///< by start
    std::int64_t readings = 0;
    std::optional<Instant> lastReading;
};

/// How many entries of one kind stand in one book only, or differ.
struct OnlyIn {
    std::string one;   ///< "reading"
    std::string many;  ///< "readings"
    std::int64_t book = 0;
    std::int64_t copy = 0;
};

Inside lookInside(const Logbook& book);
/// The kinds of entries in which the two differ.
std::vector<OnlyIn> compare(const Logbook& book, const std::filesystem::path& copy);

/// Puts what the copy holds into the book's own file, in one transaction: other programs that have it open go on with
/// it. A file that cannot be opened as a logbook is set aside under another name, which is returned, and never written.
/// Nothing is kept here of what the book held; keep a copy first. Throws LogbookError.
std::optional<std::filesystem::path> replaceBook(const std::filesystem::path& book, const std::filesystem::path& copy);

}  // namespace midden
