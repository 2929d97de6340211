// SPDX-License-Identifier: GPL-3.0-or-later
// What two books hold that the other does not.
#pragma once

#include <span>

#include "core/store/logbook.h"

namespace midden {

/// How many entries of one kind stand in one book only, or differ.
struct CountDifference {
    std::string one;   ///< "reading"
    std::string many;  ///< "readings"
    std::int64_t book = 0;
    std::int64_t copy = 0;
};

/// The kinds of entries in which the two differ in anything that a person put in, corrections included. Which columns
/// are compared comes from the tables themselves. Throws LogbookError.
std::vector<CountDifference> compare(const Logbook& book, const std::filesystem::path& copy);

/// What of a table says nothing about the entries.
struct NotCompared {
    std::string_view table;
    std::string_view column;  ///< empty = the whole table
    std::string_view reason;
};
std::span<const NotCompared> notCompared();

}  // namespace midden
