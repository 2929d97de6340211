// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/times/written_time.h"

#include <fmt/core.h>

#include <array>
#include <charconv>
#include <optional>
#include <string>

#include "core/exchange/csv/cells.h"

namespace midden {

namespace {

constexpr std::string_view digits = "0123456789";

/// Up to four digits; -1 for anything else.
int numberOf(std::string_view text) {
    if (text.empty() || text.size() > 4 || text.find_first_not_of(digits) != std::string_view::npos) {
        return -1;
    }
    int value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

struct DateParts {
    std::array<std::string_view, 3> texts;
    std::array<int, 3> numbers{};
};

/// "5/7/2026", "2026.07.05", "05-07-2026": three numbers joined by the same mark.
std::optional<DateParts> partsOf(std::string_view date) {
    const auto first = date.find_first_of("/.-");
    if (first == std::string_view::npos) {
        return std::nullopt;
    }
    const auto second = date.find(date[first], first + 1);
    if (second == std::string_view::npos) {
        return std::nullopt;
    }
    DateParts parts{{date.substr(0, first), date.substr(first + 1, second - first - 1), date.substr(second + 1)}};
    for (std::size_t i = 0; i < parts.numbers.size(); ++i) {
        parts.numbers.at(i) = numberOf(parts.texts.at(i));
        if (parts.numbers.at(i) < 0) {
            return std::nullopt;
        }
    }
    return parts;
}

/// "9:05 pm" as "21:05"; other times of day only get their hour's second digit.
std::string dayTimeOf(std::string_view text) {
    std::string time{text};
    if (time.find(':') == 1) {
        time.insert(0, "0");
    }
    const auto last = time.size() < 2 ? std::string{} : time.substr(time.size() - 2);
    const bool afternoon = last == "PM" || last == "pm";
    if (!afternoon && last != "AM" && last != "am") {
        return time;
    }
    time = std::string{withoutBlanks(std::string_view{time}.substr(0, time.size() - 2))};
    const int hour = numberOf(std::string_view{time}.substr(0, 2));
    if (hour < 1 || hour > 12 || time.size() < 2) {
        return "not a time";
    }
    return fmt::format("{:02}", hour % 12 + (afternoon ? 12 : 0)) + time.substr(2);
}

tl::unexpected<Problem> notATime(std::string_view text, std::string_view what) {
    return refused(fmt::format("\"{}\" {}", text, what), "a date and time such as 2026-03-01T08:00:00+01:00");
}

/// As ISO 8601 would read it, with the problem in terms of what was typed.
Result<IsoTime> parseAsIso(const std::string& iso, std::string_view typed) {
    auto parsed = parseIsoTime(iso);
    if (!parsed) {
        return notATime(typed, std::string_view{parsed.error().wrong}.substr(iso.size() + 3));
    }
    return parsed;
}

WrittenTime writtenFrom(const IsoTime& iso) {
    WrittenTime written;
    written.wall = iso.wall;
    written.hasOffset = iso.hasOffset;
    written.offset = iso.offset;
    return written;
}

}  // namespace

WallTime WrittenTime::in(DateOrder order) const {
    WallTime meant = wall;
    if (orderOpen) {
        meant.day = order == DateOrder::dayFirst ? first : second;
        meant.month = order == DateOrder::dayFirst ? second : first;
    }
    return meant;
}

Result<WrittenTime> parseWrittenTime(std::string_view text) {
    if (text.size() > 4 && text[4] == '-') {
        return parseIsoTime(text).map(writtenFrom);
    }
    const auto gap = text.find_first_of(" Tt");
    const auto parts = partsOf(text.substr(0, gap));
    if (!parts) {
        return notATime(text, "is not a date and time");
    }
    if (gap == std::string_view::npos) {
        return notATime(text, "has no time of day");
    }
    const auto time = dayTimeOf(withoutBlanks(text.substr(gap + 1)));
    const auto& [a, b, c] = parts->numbers;
    if (parts->texts[0].size() == 4) {
        return parseAsIso(fmt::format("{:04}-{:02}-{:02}T{}", a, b, c, time), text).map(writtenFrom);
    }
    if (parts->texts[2].size() != 4) {
        return notATime(text, "has no year of four digits");
    }
    auto written = parseAsIso(fmt::format("{:04}-01-01T{}", c, time), text).map(writtenFrom);
    if (written) {
        written->orderOpen = true;
        written->first = a;
        written->second = b;
    }
    return written;
}

}  // namespace midden
