// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/quantities/result.h"

namespace midden {

/// A difference between two temperatures, exact in ninety-thousandths of a kelvin.
class Kelvins {
  public:
    constexpr Kelvins() = default;
    static constexpr Kelvins ofParts(std::int64_t parts) { return Kelvins{parts}; }
    static constexpr Kelvins ofTenThousandths(std::int64_t tenThousandths) { return Kelvins{tenThousandths * 9}; }
    constexpr std::int64_t parts() const { return parts_; }
    constexpr double value() const { return static_cast<double>(parts_) / 90'000.0; }
    constexpr auto operator<=>(const Kelvins&) const = default;
    constexpr Kelvins operator-() const { return Kelvins{-parts_}; }
    friend constexpr Kelvins operator+(Kelvins a, Kelvins b) { return Kelvins{a.parts_ + b.parts_}; }
    friend constexpr Kelvins operator-(Kelvins a, Kelvins b) { return Kelvins{a.parts_ - b.parts_}; }

  private:
    constexpr explicit Kelvins(std::int64_t parts) : parts_{parts} {}
    std::int64_t parts_ = 0;
};

/// A temperature, exact for every four-decimal number written in °C or in °F.
/// Counted in ninety-thousandths of a degree Celsius: a ten-thousandth of 1 °F is exactly five of them.
class Celsius {
  public:
    constexpr Celsius() = default;
    static constexpr Celsius ofParts(std::int64_t parts) { return Celsius{parts}; }
    static constexpr Celsius ofTenThousandths(std::int64_t tenThousandths) { return Celsius{tenThousandths * 9}; }
    constexpr std::int64_t parts() const { return parts_; }
    constexpr double value() const { return static_cast<double>(parts_) / 90'000.0; }
    constexpr auto operator<=>(const Celsius&) const = default;
    friend constexpr Celsius operator+(Celsius t, Kelvins d) { return Celsius{t.parts_ + d.parts()}; }
    friend constexpr Celsius operator-(Celsius t, Kelvins d) { return Celsius{t.parts_ - d.parts()}; }
    friend constexpr Kelvins operator-(Celsius a, Celsius b) { return Kelvins::ofParts(a.parts_ - b.parts_); }

  private:
    constexpr explicit Celsius(std::int64_t parts) : parts_{parts} {}
    std::int64_t parts_ = 0;
};

namespace literals {
constexpr Celsius operator""_degC(unsigned long long degrees) {
    return Celsius::ofTenThousandths(static_cast<std::int64_t>(degrees) * 10'000);
}
/// Rounded to the nearest ten-thousandth, which is all a typed temperature can hold.
constexpr Celsius operator""_degC(long double degrees) {
    return Celsius::ofTenThousandths(static_cast<std::int64_t>(degrees * 10'000.0L + 0.5L));
}
constexpr Kelvins operator""_K(unsigned long long kelvins) {
    return Kelvins::ofTenThousandths(static_cast<std::int64_t>(kelvins) * 10'000);
}
constexpr Kelvins operator""_K(long double kelvins) {
    return Kelvins::ofTenThousandths(static_cast<std::int64_t>(kelvins * 10'000.0L + 0.5L));
}
}  // namespace literals

enum class TemperatureUnit : std::uint8_t { celsius = 0, fahrenheit = 1 };

/// A temperature exactly as somebody wrote it down: ten-thousandths of a degree in the unit they used.
struct WrittenTemperature {
    std::int32_t tenThousandths = 0;
    TemperatureUnit unit = TemperatureUnit::celsius;

    auto operator<=>(const WrittenTemperature&) const = default;
};

/// Exact: 131 °F is 55 °C.
constexpr Celsius toCelsius(WrittenTemperature written) {
    return written.unit == TemperatureUnit::celsius
               ? Celsius::ofTenThousandths(written.tenThousandths)
               : Celsius::ofParts((std::int64_t{written.tenThousandths} - 320'000) * 5);
}

/// The readings a compost thermometer can give: from −60 to 150 °C, both included. Anything else is a slip of the pen.
constexpr bool isReadable(Celsius temperature) {
    using namespace literals;
    return temperature >= Celsius::ofTenThousandths(-600'000) && temperature <= 150_degC;
}

/// Reads "58.5", "58,5", "137f", "137 °F", "-3" … into what was written, never rounding.
/// `assumed` is the unit when none is written. Refuses more than four decimals, both decimal marks at once,
/// exponents, NaN, infinities and anything outside −60 to 150 °C.
Result<WrittenTemperature> parseTemperature(std::string_view typed, TemperatureUnit assumed);

/// The number alone, with the fewest decimals that lose nothing: "58.5", "137", "-0.25".
std::string writtenNumber(WrittenTemperature written);

/// "58.5 °C", "137 °F".
std::string writtenWithUnit(WrittenTemperature written);

/// Rounded to `decimals` (0 to 4) once, in integers, halves away from zero, never "-0.0". Decimal point.
std::string rounded(Celsius temperature, int decimals);
std::string rounded(Kelvins difference, int decimals);

}  // namespace midden
