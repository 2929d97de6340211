// SPDX-License-Identifier: GPL-3.0-or-later
#include <system_error>

#include "core/logbook/copying.h"
#include "core/logbook/state.h"

namespace midden {

namespace fs = std::filesystem;

void Logbook::backUpTo(const fs::path& copy) const {
    const std::string shown = fileName(copy);
    std::error_code problem;
    if (fs::exists(fs::symlink_status(copy, problem))) {
        refuse(shown + " is already there; a backup never writes over a file");
    }
    PassingFile passing{fs::absolute(copy, problem)};
    copyWhole(state_->file, passing.path());
    if (!passing.takeName(copy)) {
        throw LogbookError{LogbookError::Kind::failed, "the backup " + shown + " could not be given its name"};
    }
}

}  // namespace midden
