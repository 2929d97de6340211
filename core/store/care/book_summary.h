// SPDX-License-Identifier: GPL-3.0-or-later
// A look inside a book before it takes the place of another.
#pragma once

#include "core/store/logbook.h"

namespace midden {

struct BatchSummary {
    std::string name;
    Moment started;
    std::optional<Moment> finished;
    std::int64_t readings = 0;
};

struct BookSummary {
    std::string group;
    std::vector<BatchSummary> batches;  ///< by start
    std::int64_t readings = 0;
    std::optional<Instant> lastReading;
};

BookSummary summaryOf(const Logbook& book);

/// Puts what the copy holds into the book's own file, in one transaction: other programs that have it open go on with
/// it. A file that cannot be opened as a logbook is set aside under another name, which is returned, and never written.
/// Nothing is kept here of what the book held; keep a copy first. Throws LogbookError.
std::optional<std::filesystem::path> replaceBook(const std::filesystem::path& book, const std::filesystem::path& copy);

}  // namespace midden
