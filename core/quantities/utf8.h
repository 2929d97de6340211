// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace midden {

/// Where the text stops being UTF-8 (RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF).
std::optional<std::size_t> firstNotUtf8(std::string_view text);

}  // namespace midden
