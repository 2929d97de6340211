// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace midden {

/// How the entries of one canonical record differ from those of another, entry by entry, one sentence each:
/// "core, 4 March 2026 08:10: 63.5 °C was 63.4 °C". Empty when they say the same.
std::vector<std::string> changesBetween(std::string_view stored, std::string_view now);

}  // namespace midden
