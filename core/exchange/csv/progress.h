// SPDX-License-Identifier: GPL-3.0-or-later
// Who looks on while a long import is under way, and may end it.
#pragma once

#include <cstdint>
#include <functional>

#include "core/exchange/csv/refusal.h"

namespace midden {

/// How far an import has come.
struct ImportProgress {
    enum class Stage {
        reading,    ///< of the file
        comparing,  ///< of its rows with what the book holds
        storing
    };
    Stage stage = Stage::reading;
    std::int64_t rows = 0;
    double share = 0;  ///< of this stage, 0 to 1; 0 as long as nobody knows
};

/// Hears of it now and then; its answer says whether to go on.
using ImportProgressCallback = std::function<bool(const ImportProgress&)>;

/// What becomes of an import whose callback wanted no more.
inline Refusal stoppedImport() {
    Refusal refusal;
    refusal.problem.wrong = "the import was stopped; nothing was written";
    refusal.stopped = true;
    return refusal;
}

}  // namespace midden
