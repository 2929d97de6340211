// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/destination.h"
#include "core/store/files/book_copy.h"
#include "core/store/logbook.h"
#include "core/store/state.h"

namespace midden {

namespace fs = std::filesystem;

void Logbook::backUpTo(const fs::path& copy) const {
    const auto expectFree = [&](bool free) {
        if (!free) {
            refuse(fileName(copy) + " is already there; a backup never writes over a file");
        }
    };
    expectFree(!asLogbookError([&] { return fileStatus(copy).has_value(); }));
    TemporaryBook passing{copy};
    copyWhole(state_->file, passing.path());
    asLogbookError([&] { giveRights(passing.path(), rightsOf(state_->file.path())); });
    expectFree(passing.takeName(copy));
}

}  // namespace midden
