// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/exchange/staging/row_stream.h"

namespace midden::testing {

/// All rows of a stream, or why it was refused.
inline FileResult<std::vector<StagedReading>> rowsOf(RowStream& stream) {
    std::vector<StagedReading> rows;
    for (;;) {
        const auto block = stream.next();
        if (!block) {
            return tl::unexpected{block.error()};
        }
        if (block->empty()) {
            return rows;
        }
        rows.insert(rows.end(), block->begin(), block->end());
    }
}

}  // namespace midden::testing
