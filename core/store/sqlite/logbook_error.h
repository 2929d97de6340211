// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>

namespace midden {

/// Why a logbook could not be opened, read or written. `what()` is a sentence for the person.
class LogbookError : public std::runtime_error {
  public:
    enum class Kind {
        absent,    ///< no such file
        foreign,   ///< a file of some other program
        newer,     ///< written by a later Middenbook
        damaged,   ///< SQLite cannot read it
        busy,      ///< another program holds it
        readOnly,  ///< the file or its folder cannot be written
        full,      ///< no space left
        moved,     ///< the file was moved, deleted or replaced while it was open
        refused,   ///< the change contradicts what the book holds
        failed     ///< anything else the machine refused
    };
    LogbookError(Kind why, const std::string& sentence) : std::runtime_error{sentence}, kind{why} {}
    Kind kind;
};

}  // namespace midden
