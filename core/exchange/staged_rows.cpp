// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/staged_rows.h"

#include <algorithm>
#include <utility>

namespace midden {

namespace {

/// The fresh rows of a list as one run.
SortedRun sortedRunOf(RowList& list) {
    SortedRun run;
    run.rows = std::exchange(list.fresh, {});
    if (!std::is_sorted(run.rows.begin(), run.rows.end())) {
        std::sort(run.rows.begin(), run.rows.end());
    }
    run.count = run.rows.size();
    run.first = run.rows.front();
    run.last = run.rows.back();
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
            list.runs.push_back(sortedRunOf(list));
        }
    }
}

void StagedRows::putAway() {
    if (!scratch_) {
        scratch_ = std::make_shared<ScratchFile>(room_.scratchFolder);
    }
    for (auto& list : lists_) {
        if (!list.fresh.empty()) {
            auto run = sortedRunOf(list);
            run.offset = scratch_->append(std::as_bytes(std::span{run.rows}));
            run.rows = std::vector<StagedReading>{};  // "= {}" would keep the memory
            list.runs.push_back(std::move(run));
        }
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
