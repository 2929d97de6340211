// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/progress.h"
#include "core/exchange/store_entries.h"

namespace midden {

/// Counts staged rows as they pass, and tells the onlooker. Throws RefusedImport when it wants no more.
class RowWatch {
  public:
    RowWatch(const ImportOnlooker& onlooker, ImportProgress::Stage stage, std::int64_t all)
        : onlooker_{onlooker}, stage_{stage}, all_{all} {}

    void passed(std::int64_t rows) {
        done_ += rows;
        if (onlooker_ && !onlooker_({stage_, done_, static_cast<double>(done_) / static_cast<double>(all_)})) {
            throw RefusedImport{stoppedImport()};
        }
    }

  private:
    const ImportOnlooker& onlooker_;
    ImportProgress::Stage stage_;
    std::int64_t all_;
    std::int64_t done_ = 0;
};

}  // namespace midden
