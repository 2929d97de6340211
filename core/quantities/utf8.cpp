// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/utf8.h"

#include <array>
#include <cstdint>

namespace midden {

namespace {

/// The code points a sequence of so many bytes must reach, so that each has one form only.
constexpr std::array<std::uint32_t, 5> leastOfLength{0, 0, 0x80, 0x800, 0x1'0000};

std::size_t lengthAfter(unsigned char lead) {
    if (lead < 0x80) {
        return 1;
    }
    if (lead >= 0xC2 && lead < 0xE0) {
        return 2;
    }
    if (lead >= 0xE0 && lead < 0xF0) {
        return 3;
    }
    return lead >= 0xF0 && lead < 0xF5 ? 4 : 0;
}

/// Bytes of the sequence at the front of `text`; 0 when it is not UTF-8.
std::size_t sequenceLength(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    const std::size_t length = lengthAfter(lead);
    if (length <= 1 || text.size() < length) {
        return length <= 1 ? length : 0;
    }
    std::uint32_t point = lead & (0xFFU >> (length + 1));
    for (const char c : text.substr(1, length - 1)) {
        const auto byte = static_cast<unsigned char>(c);
        if ((byte & 0xC0U) != 0x80U) {
            return 0;
        }
        point = (point << 6U) | (byte & 0x3FU);
    }
    const bool surrogate = point >= 0xD800 && point <= 0xDFFF;
    return point < leastOfLength.at(length) || surrogate || point > 0x10'FFFF ? 0 : length;
}

}  // namespace

std::optional<std::size_t> firstNotUtf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const auto length = sequenceLength(text.substr(at));
        if (length == 0) {
            return at;
        }
        at += length;
    }
    return std::nullopt;
}

}  // namespace midden
