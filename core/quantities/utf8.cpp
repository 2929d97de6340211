// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/utf8.h"

#include <algorithm>
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

struct Sequence {
    std::size_t length = 0;  ///< in bytes; 0 = not UTF-8
    std::uint32_t point = 0;
};

/// What stands at the front of `text`.
Sequence sequenceOf(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    const std::size_t length = lengthAfter(lead);
    if (length <= 1 || text.size() < length) {
        return {length == 1 ? length : 0, lead};
    }
    std::uint32_t point = lead & (0xFFU >> (length + 1));
    for (const char c : text.substr(1, length - 1)) {
        const auto byte = static_cast<unsigned char>(c);
        if ((byte & 0xC0U) != 0x80U) {
            return {};
        }
        point = (point << 6U) | (byte & 0x3FU);
    }
    const bool surrogate = point >= 0xD800 && point <= 0xDFFF;
    return {point < leastOfLength.at(length) || surrogate || point > 0x10'FFFF ? 0 : length, point};
}

constexpr bool isControl(std::uint32_t point) {
    return point < 0x20 || point == 0x7F;
}

/// Ends a line, steers the terminal or turns the direction of writing, without a picture of its own.
constexpr bool isHidden(std::uint32_t point) {
    return (point >= 0x80 && point < 0xA0) || point == 0x061C || point == 0x200E || point == 0x200F ||
           (point >= 0x2028 && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069);
}

constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD

/// U+2400 to U+2421
std::string pictureOf(std::uint32_t control) {
    const auto last = static_cast<unsigned char>(0x80U + (control == 0x7F ? 0x21U : control));
    return {'\xE2', '\x90', static_cast<char>(last)};
}

}  // namespace

std::optional<std::size_t> firstNotUtf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const auto length = sequenceOf(text.substr(at)).length;
        if (length == 0) {
            return at;
        }
        at += length;
    }
    return std::nullopt;
}

std::optional<std::size_t> firstControl(std::string_view text) {
    const auto found = std::find_if(text.begin(), text.end(), [](char c) {
        return isControl(static_cast<unsigned char>(c)) && c != '\t' && c != '\n' && c != '\r';
    });
    return found == text.end() ? std::nullopt : std::optional{static_cast<std::size_t>(found - text.begin())};
}

std::string printable(std::string_view text) {
    std::string shown;
    shown.reserve(text.size());
    while (!text.empty()) {
        const auto [length, point] = sequenceOf(text);
        if (length == 0 || isHidden(point)) {
            shown += replacement;
        } else if (isControl(point)) {
            shown += pictureOf(point);
        } else {
            shown += text.substr(0, length);
        }
        text.remove_prefix(length == 0 ? 1 : length);
    }
    return shown;
}

}  // namespace midden
