// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/wording.h"

#include <fmt/core.h>

#include <cctype>

#include "core/criteria/phrases.h"

namespace midden {

namespace {

std::string withoutTrailingZeros(std::string digits) {
    if (digits.find('.') != std::string::npos) {
        digits.erase(digits.find_last_not_of('0') + 1);
        if (digits.back() == '.') {
            digits.pop_back();
        }
    }
    return digits;
}

}  // namespace

std::string howMany(std::int64_t count, const char* one, const char* many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string hoursRead(Seconds time) {
    return time == Seconds{} ? "0 h" : durationWords(time);
}

std::string listed(const std::vector<std::string>& items) {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (i > 0) {
            text += i + 1 == items.size() ? " and " : ", ";
        }
        text += items[i];
    }
    return text;
}

std::string capital(std::string text) {
    if (!text.empty() && static_cast<unsigned char>(text.front()) < 0x80) {
        text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
    }
    return text;
}

std::string shortNumber(double number) {
    return withoutTrailingZeros(fmt::format("{:.2f}", number));
}

std::string dayAndTime(Moment moment) {
    const auto wall = wallTimeOf(moment);
    return fmt::format("{} {:02}:{:02}", shortDate(moment), wall.hour, wall.minute);
}

std::string span(const Interval& interval, const TimeZone& zone) {
    return dayAndTime(zone.momentAt(interval.from)) + " – " + dayAndTime(zone.momentAt(interval.to));
}

}  // namespace midden
