// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/season/season.h"

#include <algorithm>

#include "core/store/read/book_rules.h"

namespace midden::ui {

std::optional<Interval> Season::span() const {
    if (batches.empty()) {
        return {};
    }
    Interval whole = batches.front().stood;
    for (const SeasonBatch& batch : batches) {
        whole.to = std::max(whole.to, batch.stood.to);
    }
    return whole;
}

std::optional<Season> loadSeason(const Logbook& logbook, const Going& going) {
    ReviewQuestions questions = questionsOf(logbook);
    questions.criteria = {targetOf(logbook)};
    const auto batches = logbook.batches();
    Season season;
    for (const Batch& batch : batches) {
        if (!going(static_cast<double>(season.batches.size()) / static_cast<double>(batches.size()))) {
            return {};
        }
        const BatchRecord record = logbook.record(batch.id);
        season.batches.push_back(seasonBatchOf(record, reviewOf(record, questions), questions.materials));
    }
    return season;
}

}  // namespace midden::ui
