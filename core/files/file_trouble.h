// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>

namespace midden {

/// Why a file could not be written where it was asked for. `what()` is a sentence for the person, without a full stop.
class FileTrouble : public std::runtime_error {
  public:
    enum class Kind {
        refused,     ///< the name may not be given to it: something else has it, or needs it
        unwritable,  ///< the folder is absent or may not be written to
        full,        ///< no space left
        failed       ///< anything else the machine refused
    };
    FileTrouble(Kind why, const std::string& sentence) : std::runtime_error{sentence}, kind{why} {}
    Kind kind;
};

/// The trouble that `error`, an errno, means while something is written at `name`.
FileTrouble troubleAt(const std::filesystem::path& name, int error);

/// The last part of a name, in UTF-8.
std::string fileName(const std::filesystem::path& file);

}  // namespace midden
