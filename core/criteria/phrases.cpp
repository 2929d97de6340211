// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/phrases.h"

#include <fmt/core.h>

namespace midden {

namespace {

/// Without the zeros that say nothing: "78.0" → "78".
std::string trimmed(std::string number) {
    if (number.find('.') != std::string::npos) {
        number.erase(number.find_last_not_of('0') + 1);
        if (number.back() == '.') {
            number.pop_back();
        }
    }
    return number;
}

std::string limitTo(WrittenTemperature limit, int decimals) {
    if (limit.unit == TemperatureUnit::celsius) {
        return writtenWithUnit(limit);
    }
    return fmt::format("{} °C ({})", trimmed(rounded(toCelsius(limit), decimals)), writtenWithUnit(limit));
}

}  // namespace

std::string durationWords(Seconds duration) {
    const auto h = duration.count / 3'600;
    const auto min = duration.count / 60 % 60;
    const auto s = duration.count % 60;
    std::string words = h > 0 ? fmt::format("{} h", h) : "";
    if (min > 0) {
        words += fmt::format("{}{} min", words.empty() ? "" : " ", min);
    }
    if (s > 0 || words.empty()) {
        words += fmt::format("{}{} s", words.empty() ? "" : " ", s);
    }
    return words;
}

std::string limitWords(WrittenTemperature limit) {
    return limitTo(limit, 1);
}

std::string limitWords(const Step& step) {
    const auto threshold = limitWords(step.threshold);
    if (!step.ceiling) {
        return (step.exceeds ? "above " : "at or above ") + threshold;
    }
    return fmt::format("{} {} {} {}", step.exceeds ? "above" : "from", threshold, step.exceeds ? "and up to" : "to",
                       limitWords(*step.ceiling));
}

std::string missWords(Celsius reading, const std::string& relation, WrittenTemperature limit) {
    const auto level = toCelsius(limit);
    const auto looksEqual = [&](int decimals) { return rounded(reading, decimals) == rounded(level, decimals); };
    int decimals = 1;
    while (decimals < 4 && reading != level && looksEqual(decimals)) {
        ++decimals;
    }
    const bool hidden = reading != level && looksEqual(decimals);
    return fmt::format("{} °C, {}{} {}", trimmed(rounded(reading, decimals)), hidden ? "just " : "", relation,
                       limitTo(limit, decimals));
}

std::string counted(int count, const std::string& one, const std::string& many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace midden
