// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace midden {

/// Where the text stops being UTF-8 (RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF).
std::optional<std::size_t> firstNotUtf8(std::string_view text);

/// Where the text first has a control character that no CSV file of ours takes: all but tab and line breaks.
std::optional<std::size_t> firstControl(std::string_view text);

/// The text as it may be shown on one line of a terminal. Control characters, line breaks and tabs among them, show as
/// their pictures (U+2400 to U+2421). Marks that end a line or turn the direction of writing, and bytes that are not
/// UTF-8, show as U+FFFD.
std::string printable(std::string_view text);

}  // namespace midden
