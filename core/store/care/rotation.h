// SPDX-License-Identifier: GPL-3.0-or-later
// Which of the copies of a book are kept, and which make room.
#pragma once

#include <cstddef>
#include <vector>

#include "core/quantities/time.h"

namespace midden {

/// The newest copy of each of the latest days that have one, before those of each of the latest weeks, and before
/// those of each of the latest months. The numbers are common practice, no source.
struct Rotation {
    std::size_t daily = 7;
    std::size_t weekly = 8;
    std::size_t monthly = 24;
};

/// The copies that may go once the one made at `made` is good. Days, weeks (from Monday) and months are those of UTC.
/// A copy dated later than `made` tells of a clock that was set back: it is kept, and counts for nothing.
std::vector<Instant> copiesToDrop(std::vector<Instant> copies, Instant made, const Rotation& rotation = {});

}  // namespace midden
