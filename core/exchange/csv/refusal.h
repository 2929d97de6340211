// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <tl/expected.hpp>

#include "core/quantities/result.h"

namespace midden {

/// A file that was refused: where, what is wrong there, and what would have been right.
struct Refusal {
    std::string file;        ///< as the person named it; empty = not about a file
    std::uint64_t line = 0;  ///< counted from 1; 0 = the file as a whole
    Problem problem;
    bool wrongUsage = false;  ///< mended by asking differently (--zone, --bin), not by another file
    bool stopped = false;     ///< nothing is wrong: whoever looked on wanted no more

    /// "readings.csv:7: what is wrong; expected …"
    std::string sentence() const {
        const auto where = file + (line > 0 ? ":" + std::to_string(line) : "");
        return where + (where.empty() ? "" : ": ") + problem.sentence();
    }
};

/// A value, or why the file it should have come from was refused.
template <class T>
using FileResult = tl::expected<T, Refusal>;

}  // namespace midden
