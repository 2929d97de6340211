// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/sha256.h"

#include <fmt/core.h>
#include <nettle/sha2.h>

#include <array>
#include <iterator>

namespace midden {

std::string sha256(std::string_view bytes) {
    sha256_ctx context{};
    sha256_init(&context);
    const std::basic_string<std::uint8_t> octets{bytes.begin(), bytes.end()};
    sha256_update(&context, octets.size(), octets.data());
    std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
    sha256_digest(&context, digest.size(), digest.data());
    std::string digits;
    for (const auto octet : digest) {
        fmt::format_to(std::back_inserter(digits), "{:02x}", octet);
    }
    return digits;
}

}  // namespace midden
