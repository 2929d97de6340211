// SPDX-License-Identifier: GPL-3.0-or-later
// The one way JSON of a file or a book is read: whoever wrote it, it cannot ask for more than it may have.
#pragma once

#include <nlohmann/json.hpp>
#include <string_view>

#include "core/quantities/result.h"

namespace midden {

/// No JSON of ours comes near any of these. Whoever goes through a value level by level may do so down to the deepest.
constexpr std::size_t deepestJson = 32;        ///< objects and lists inside one another
constexpr std::size_t longestJson = 64 << 20;  ///< bytes
constexpr std::size_t mostValuesOfJson = 100'000;

/// Refuses what is not JSON, or is deeper, longer or of more values than that.
Result<nlohmann::json> readJson(std::string_view text);

}  // namespace midden
