// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/temperature.h"

#include <catch2/catch.hpp>

using namespace midden;
using namespace midden::literals;

TEST_CASE("131 °F is exactly 55 °C") {
    const auto written = parseTemperature("131", TemperatureUnit::fahrenheit);
    REQUIRE(written);
    CHECK(toCelsius(*written) == 55_degC);
    CHECK(toCelsius(WrittenTemperature{1'309'999, TemperatureUnit::fahrenheit}) < 55_degC);
}

TEST_CASE("a typed temperature is read with either decimal mark and any common unit") {
    struct Case {
        const char* typed;
        std::int32_t tenThousandths;
        TemperatureUnit unit;
    };
    const auto c = GENERATE(
        Case{"58.5", 585'000, TemperatureUnit::celsius}, Case{"58,5", 585'000, TemperatureUnit::celsius},
        Case{" 58.5 °C ", 585'000, TemperatureUnit::celsius}, Case{"137f", 1'370'000, TemperatureUnit::fahrenheit},
        Case{"137 °F", 1'370'000, TemperatureUnit::fahrenheit}, Case{"-3", -30'000, TemperatureUnit::celsius},
        Case{"−3", -30'000, TemperatureUnit::celsius}, Case{"54.9999", 549'999, TemperatureUnit::celsius},
        Case{"60C", 600'000, TemperatureUnit::celsius}, Case{"60°", 600'000, TemperatureUnit::celsius});
    const auto written = parseTemperature(c.typed, TemperatureUnit::celsius);
    INFO(c.typed);
    REQUIRE(written);
    CHECK(written->tenThousandths == c.tenThousandths);
    CHECK(written->unit == c.unit);
}

TEST_CASE("what is not a temperature of a heap is refused") {
    const std::string typed = GENERATE("", " ", "NaN", "nan", "inf", "-inf", "-273.16", "5000", "1e2", "58.50000",
                                       "5,8.5", "1.234,5", "58.", ".5", "hot", "5 8", "--3", "60.0001 x", "150.0001",
                                       "-60.0001", "303f", "0x3c", "99999999999999999999999999");
    INFO(typed);
    const auto written = parseTemperature(typed, TemperatureUnit::celsius);
    REQUIRE_FALSE(written);
    CHECK_FALSE(written.error().wrong.empty());
    CHECK_FALSE(written.error().expected.empty());
}

TEST_CASE("the ends of the readable range are readable") {
    CHECK(parseTemperature("150", TemperatureUnit::celsius));
    CHECK(parseTemperature("-60", TemperatureUnit::celsius));
    CHECK(parseTemperature("302", TemperatureUnit::fahrenheit));
    CHECK(parseTemperature("-76", TemperatureUnit::fahrenheit));
}

TEST_CASE("a written number is given back with the decimals that matter") {
    CHECK(writtenNumber({585'000}) == "58.5");
    CHECK(writtenNumber({580'000}) == "58");
    CHECK(writtenNumber({0}) == "0");
    CHECK(writtenNumber({-2'500}) == "-0.25");
    CHECK(writtenNumber({549'999}) == "54.9999");
    CHECK(writtenWithUnit({1'370'000, TemperatureUnit::fahrenheit}) == "137 °F");
}

TEST_CASE("rounding is done once, halves away from zero") {
    CHECK(rounded(55.25_degC, 1) == "55.3");
    CHECK(rounded(55.2499_degC, 1) == "55.2");
    CHECK(rounded(Celsius::ofTenThousandths(-552'500), 1) == "-55.3");
    CHECK(rounded(Celsius::ofTenThousandths(-400), 1) == "0.0");
    CHECK(rounded(toCelsius({1'370'000, TemperatureUnit::fahrenheit}), 1) == "58.3");
    CHECK(rounded(55_degC, 0) == "55");
    CHECK(rounded(2.5_K, 1) == "2.5");
    CHECK(rounded(54.99995_degC, 4) == "55.0000");
}
