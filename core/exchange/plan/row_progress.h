// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/csv/progress.h"
#include "core/exchange/plan/store_entries.h"

namespace midden {

/// Counts staged rows as they pass, and tells the callback. Throws RefusedImport when it wants no more.
class RowProgress {
  public:
    RowProgress(const ImportProgressCallback& onProgress, ImportProgress::Stage stage, std::int64_t all)
        : onProgress_{onProgress}, stage_{stage}, all_{all} {}

    void passed(std::int64_t rows) {
        done_ += rows;
        if (onProgress_ && !onProgress_({stage_, done_, static_cast<double>(done_) / static_cast<double>(all_)})) {
            throw RefusedImport{stoppedImport()};
        }
    }

  private:
    const ImportProgressCallback& onProgress_;
    ImportProgress::Stage stage_;
    std::int64_t all_;
    std::int64_t done_ = 0;
};

}  // namespace midden
