// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/quantities/time.h"

namespace midden {

enum class StallKind { neverHeated, earlyCooling, handlingDip };

/// Something that may lie behind a stall, with the reasons taken from the record, and what is usually done.
struct LikelyCause {
    std::string cause;
    std::string remedy;
    std::string caution;
    std::string source;
    std::vector<std::string> reasons;
};

struct Stall {
    StallKind kind{};
    Instant from;
    std::optional<Instant> to;  ///< no value: still open at the batch's last entry
    double hoursCredited = 0;
    double hoursShort = 0;
    std::vector<LikelyCause> causes;  ///< likeliest first, never empty
};

}  // namespace midden
