// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace midden {

/// The SHA-256 digest (FIPS 180-4) of the bytes, as 64 lower-case hexadecimal digits. Computed by Nettle.
std::string sha256(std::string_view bytes);

}  // namespace midden
