// SPDX-License-Identifier: GPL-3.0-or-later
// Parts of a check, for whoever shows a book that other hands may have written in.
#pragma once

#include "core/store/logbook.h"

namespace midden {

/// Looks at every page and row of readings, some 0.2 s a million. Throws that the book is damaged: no certificate may
/// rest on such readings.
void expectSoundReadings(const Logbook& book);

/// One sentence for each amendment that no rule of the file can have written, oldest first: an old or new value that
/// cannot be read or lacks what such an entry has, a time that cannot be. The rest of the book may be shown.
std::vector<std::string> unreadableAmendments(const Logbook& book);

}  // namespace midden
