// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/temperature.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>

namespace midden {

namespace {

constexpr std::size_t mostDecimals = 4;

std::string_view trimmed(std::string_view text) {
    const auto isBlank = [](char c) { return c == ' ' || c == '\t'; };
    while (!text.empty() && isBlank(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && isBlank(text.back())) {
        text.remove_suffix(1);
    }
    return text;
}

bool takeSuffix(std::string_view& text, std::string_view suffix) {
    if (!text.ends_with(suffix)) {
        return false;
    }
    text.remove_suffix(suffix.size());
    return true;
}

/// Takes "f", "°F", "° C" … off the end; the degree sign may also be the masculine ordinal that keyboards offer.
std::optional<TemperatureUnit> takeUnit(std::string_view& text) {
    std::optional<TemperatureUnit> unit;
    if (takeSuffix(text, "f") || takeSuffix(text, "F")) {
        unit = TemperatureUnit::fahrenheit;
    } else if (takeSuffix(text, "c") || takeSuffix(text, "C")) {
        unit = TemperatureUnit::celsius;
    }
    text = trimmed(text);
    if (takeSuffix(text, "°") || takeSuffix(text, "º")) {
        text = trimmed(text);
    }
    return unit;
}

bool takeSign(std::string_view& text) {
    for (const std::string_view minus : {"-", "−"}) {
        if (text.starts_with(minus)) {
            text.remove_prefix(minus.size());
            return true;
        }
    }
    if (text.starts_with('+')) {
        text.remove_prefix(1);
    }
    return false;
}

/// "58,5" taken apart at its decimal mark. A mark must have digits on both sides.
struct Digits {
    std::string_view whole;
    std::string_view decimals;
};

std::optional<Digits> digitsOf(std::string_view number) {
    const auto mark = number.find_first_of(".,");
    const Digits digits{number.substr(0, mark), mark == std::string_view::npos ? "" : number.substr(mark + 1)};
    const auto onlyDigits = [](std::string_view text) {
        return text.find_first_not_of("0123456789") == std::string_view::npos;
    };
    const bool markWithoutDecimals = mark != std::string_view::npos && digits.decimals.empty();
    if (digits.whole.empty() || markWithoutDecimals || !onlyDigits(digits.whole) || !onlyDigits(digits.decimals)) {
        return std::nullopt;
    }
    return digits;
}

/// A number so large that it is refused as out of range, whatever else was typed.
constexpr std::int64_t farTooHot = 1'000'000'000;

Result<std::int64_t> parseTenThousandths(std::string_view number, std::string_view typed) {
    const auto digits = digitsOf(number);
    if (!digits) {
        return refused(fmt::format("\"{}\" is not a number", typed), "a temperature such as 58.5");
    }
    if (digits->decimals.size() > mostDecimals) {
        return refused(fmt::format("\"{}\" has more than four decimals", typed), "at most four decimals of a degree");
    }
    std::int64_t value = 0;
    for (const char c : digits->whole) {
        value = std::min(value * 10 + (c - '0'), farTooHot);
    }
    for (std::size_t i = 0; i < mostDecimals; ++i) {
        value = value * 10 + (i < digits->decimals.size() ? digits->decimals[i] - '0' : 0);
    }
    return value;
}

/// "12.50" for 125'000 ten-thousandths and two decimals; the sign is written only before something that is not zero.
std::string decimalText(std::int64_t tenThousandths, int decimals) {
    const bool negative = tenThousandths < 0;
    const auto magnitude = negative ? -tenThousandths : tenThousandths;
    std::string text = fmt::format("{}{}", negative ? "-" : "", magnitude / 10'000);
    if (decimals > 0) {
        const auto fraction = fmt::format("{:04}", magnitude % 10'000);
        text += '.' + fraction.substr(0, static_cast<std::size_t>(decimals));
    }
    return text;
}

std::string roundedParts(std::int64_t parts, int decimals) {
    std::int64_t unit = 90'000;  // ninety-thousandths in one step of the last decimal shown
    std::int64_t step = 10'000;
    for (int i = 0; i < decimals; ++i) {
        unit /= 10;
        step /= 10;
    }
    const std::int64_t half = unit / 2 + unit % 2;
    const auto steps = (parts + (parts < 0 ? -half : half)) / unit;
    return decimalText(steps * step, decimals);
}

}  // namespace

Result<WrittenTemperature> parseTemperature(std::string_view typed, TemperatureUnit assumed) {
    std::string_view rest = trimmed(typed);
    const auto unit = takeUnit(rest).value_or(assumed);
    const bool negative = takeSign(rest);
    const auto magnitude = parseTenThousandths(rest, typed);
    if (!magnitude) {
        return tl::unexpected{magnitude.error()};
    }
    const auto outOfRange = [&] {
        return refused(fmt::format("{} is no temperature of a heap", typed), "a value from -60 to 150 °C");
    };
    if (*magnitude > 10'000'000) {
        return outOfRange();
    }
    const WrittenTemperature written{static_cast<std::int32_t>(negative ? -*magnitude : *magnitude), unit};
    if (!isReadable(toCelsius(written))) {
        return outOfRange();
    }
    return written;
}

std::string writtenNumber(WrittenTemperature written) {
    int decimals = static_cast<int>(mostDecimals);
    std::int32_t rest = written.tenThousandths % 10'000;
    while (decimals > 0 && rest % 10 == 0) {
        rest /= 10;
        --decimals;
    }
    return decimalText(written.tenThousandths, decimals);
}

std::string writtenWithUnit(WrittenTemperature written) {
    return writtenNumber(written) + (written.unit == TemperatureUnit::celsius ? " °C" : " °F");
}

std::string rounded(Celsius temperature, int decimals) {
    return roundedParts(temperature.parts(), decimals);
}

std::string rounded(Kelvins difference, int decimals) {
    return roundedParts(difference.parts(), decimals);
}

}  // namespace midden
