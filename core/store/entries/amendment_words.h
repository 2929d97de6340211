// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/sqlite/database.h"

namespace midden {

/// An amendment as the file keeps it; `was` and `became` are JSON or empty.
struct AmendmentRow {
    std::int64_t id = 0;
    EntryKind kind{};
    std::string entry;         ///< its lasting name
    std::optional<BinId> bin;  ///< of a reading, as it stood before
    Instant at;
    std::string was;
    std::string became;
    Instant amended;
    std::string who;
    std::string why;
};

/// Names the entry and says both values as a person reads them.
Amendment inWords(const AmendmentRow& row, BatchId batch);

}  // namespace midden
