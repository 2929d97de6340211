// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/staging/staged_rows.h"

#include <algorithm>
#include <utility>

namespace midden {

namespace {

/// Puts the fresh rows of a list in order, and says what they are as a run.
SortedRun sortedRunOf(RowList& list) {
    auto& rows = list.fresh;
    if (!std::is_sorted(rows.begin(), rows.end())) {
        std::sort(rows.begin(), rows.end());
    }
    SortedRun run;
    run.count = rows.size();
    run.first = rows.front();
    run.last = rows.back();
    return run;
}

}  // namespace

std::size_t StagedRows::addList() {
    lists_.emplace_back();
    return lists_.size() - 1;
}

void StagedRows::settle() {
    for (auto& list : lists_) {
        if (!list.fresh.empty()) {
            auto run = sortedRunOf(list);
            run.rows = std::move(list.fresh);
            list.runs.push_back(std::move(run));
        }
    }
}

std::int64_t StagedRows::count() const {
    std::size_t count = 0;
    for (const auto& list : lists_) {
        count += list.fresh.size();
        for (const auto& run : list.runs) {
            count += run.count;
        }
    }
    return static_cast<std::int64_t>(count);
}

void StagedRows::putAway() {
    if (!scratch_) {
        scratch_ = std::make_shared<ScratchFile>(room_.scratchFolder);
    }
    for (auto& list : lists_) {
        if (list.fresh.empty()) {
            list.fresh.shrink_to_fit();  // nothing came since the last time: its memory is wanted elsewhere
            continue;
        }
        auto run = sortedRunOf(list);
        run.offset = scratch_->append(std::as_bytes(std::span{list.fresh}));
        list.runs.push_back(std::move(run));
        list.fresh.clear();
    }
    inMemory_ = 0;
}

void StagedRows::read(const SortedRun& run, std::size_t from, std::span<StagedReading> into) const {
    if (run.rows.empty()) {
        scratch_->read(run.offset + from * sizeof(StagedReading), std::as_writable_bytes(into));
    } else {
        std::copy_n(run.rows.begin() + static_cast<std::ptrdiff_t>(from), into.size(), into.begin());
    }
}

}  // namespace midden
