// SPDX-License-Identifier: GPL-3.0-or-later
// A batch that comes into a bin where another one stands.
#pragma once

#include "ui/shared/book.h"
#include "ui/shared/question_bar.h"

namespace midden::ui {

/// The batch that stands in the bin at that instant and would have to leave it; not one that is finished by then.
std::optional<Batch> runningIn(const Logbook& logbook, BinId bin, Instant at);

/// Since when the batch has stood where it stands last.
Instant stoodSince(const Batch& batch);

/// When another batch can come to stand: as typed, or right behind the readings these batches were given in that
/// minute, which stay theirs. A reading belongs to the batch that stands in its bin at that very second.
Moment behindReadings(const Logbook& logbook, const std::vector<std::optional<BatchId>>& read, Moment typed);

/// What is asked before `coming` takes the bin of `leaving` at that time.
Question takeoverQuestion(const Book& book, const QString& coming, const Batch& leaving, const Bin& bin, Moment when);

}  // namespace midden::ui
