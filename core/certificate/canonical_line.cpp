// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/core.h>

#include <array>
#include <charconv>
#include <cstdlib>

#include "core/certificate/canonical.h"

namespace midden {

namespace {

std::string escaped(std::string_view value) {
    std::string text;
    for (const char c : value) {
        switch (c) {
            case '\\':
                text += "\\\\";
                break;
            case '\t':
                text += "\\t";
                break;
            case '\n':
                text += "\\n";
                break;
            case '\r':
                text += "\\r";
                break;
            default:
                text += c;
        }
    }
    return text;
}

char meant(char afterBackslash) {
    switch (afterBackslash) {
        case 't':
            return '\t';
        case 'n':
            return '\n';
        case 'r':
            return '\r';
        default:
            return afterBackslash;
    }
}

std::string unescaped(std::string_view value) {
    std::string text;
    for (std::size_t i = 0; i < value.size(); ++i) {
        const bool escape = value[i] == '\\' && i + 1 < value.size();
        text += escape ? meant(value[++i]) : value[i];
    }
    return text;
}

/// Takes the part before the next tab off the front.
std::string_view nextPart(std::string_view& rest) {
    const auto tab = rest.find('\t');
    const auto part = rest.substr(0, tab);
    rest = tab == std::string_view::npos ? std::string_view{} : rest.substr(tab + 1);
    return part;
}

}  // namespace

CanonicalLine CanonicalLine::parse(std::string_view line) {
    CanonicalLine parsed{std::string{nextPart(line)}};
    while (!line.empty()) {
        const auto part = nextPart(line);
        const auto equals = part.find('=');
        if (equals != std::string_view::npos) {
            parsed.fields_.emplace_back(part.substr(0, equals), unescaped(part.substr(equals + 1)));
        }
    }
    return parsed;
}

CanonicalLine& CanonicalLine::with(std::string name, std::string value) {
    if (!value.empty()) {
        fields_.emplace_back(std::move(name), std::move(value));
    }
    return *this;
}

CanonicalLine& CanonicalLine::with(std::string name, Moment when) {
    return with(std::move(name), isoUtc(when.at)).with("offset", offsetText(when.offset));
}

CanonicalLine& CanonicalLine::with(std::string name, std::optional<double> number, std::string_view unit) {
    return number ? with(std::move(name), decimal(*number).append(unit)) : *this;
}

std::string CanonicalLine::field(std::string_view name) const {
    for (const auto& [fieldName, value] : fields_) {
        if (fieldName == name) {
            return value;
        }
    }
    return {};
}

std::string CanonicalLine::text() const {
    std::string line = word_;
    for (const auto& [name, value] : fields_) {
        line += '\t' + name + '=' + escaped(value);
    }
    return line + '\n';
}

std::string offsetText(UtcOffset offset) {
    const int ahead = std::abs(int{offset.minutes});
    return fmt::format("{}{:02}:{:02}", offset.minutes < 0 ? '-' : '+', ahead / 60, ahead % 60);
}

std::string decimal(double number) {
    std::array<char, 32> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number).ptr;
    return {digits.data(), end};
}

std::string decimal(Kelvins difference) {
    auto digits = rounded(difference, 4);
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.ends_with('.')) {
        digits.pop_back();
    }
    return digits;
}

CanonicalParts partsOf(std::string_view canonical) {
    constexpr std::string_view border = "\nentries\n";
    const auto at = canonical.find(border);
    if (at == std::string_view::npos) {
        return {canonical, {}};
    }
    return {canonical.substr(0, at + 1), canonical.substr(at + 1)};
}

}  // namespace midden
