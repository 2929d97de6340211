// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commands/damage_note.h"

#include <iostream>

#include "core/store/soundness.h"

namespace midden::app {

void nameUnreadable(const Logbook& book) {
    const auto unreadable = unreadableAmendments(book);
    for (const auto& sentence : unreadable) {
        std::cerr << sentence << '\n';
    }
    if (!unreadable.empty()) {
        std::cerr << "The book is damaged; what is said here is of the rest.\n";
    }
}

}  // namespace midden::app
