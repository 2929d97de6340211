// SPDX-License-Identifier: GPL-3.0-or-later
// What bringing in another copy does beside the thread of the window. Nothing here knows a widget.
#pragma once

#include <QString>
#include <filesystem>
#include <map>

#include "core/store/logbook.h"

namespace midden::ui {

/// The two copies, and who brings one into the other.
struct MergeTask {
    std::filesystem::path book;
    std::filesystem::path other;
    std::filesystem::path copies;  ///< where a copy of the book goes first; empty = none is kept
    std::string who;
    Instant now;
};

/// Conflicts by their keys, and which side stands.
using MergeChoices = std::map<std::string, Stands>;

struct MergeFindings {
    MergeOutcome outcome;
    QString trouble;  ///< in words; empty = all is well
};

/// What would come, found on a passing copy: the book itself is only read.
MergeFindings lookThrough(const MergeTask& task);
/// Keeps a copy of the book as it is, then brings the other in, all of it or nothing.
MergeFindings bringIn(const MergeTask& task, const MergeChoices& choices);

}  // namespace midden::ui
