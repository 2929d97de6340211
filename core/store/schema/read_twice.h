// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "core/store/sqlite/database.h"

namespace midden {

/// The instants at which more than one of the series has a reading, in time order, at most `most`. Takes no longer than
/// reading them side by side once, however many there are.
std::vector<Instant> readTwice(DatabaseFile& file, std::span<const std::int64_t> series, std::size_t most);

}  // namespace midden
