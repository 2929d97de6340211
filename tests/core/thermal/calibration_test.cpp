// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/calibration.h"

#include <catch2/catch.hpp>

using namespace midden;
using namespace midden::literals;

namespace {

const Moment noon{{1'000'000}, {}};

Moment later(Seconds by) {
    return {noon.at + by, {}};
}

ThermometerCheck iceCheck(Moment when, std::int32_t tenThousandths) {
    ThermometerCheck check;
    check.when = when;
    check.read = {tenThousandths, TemperatureUnit::celsius};
    return check;
}

ThermometerCheck boilingCheck(Moment when, std::int32_t tenThousandths, double altitude) {
    auto check = iceCheck(when, tenThousandths);
    check.kind = CheckKind::boiling;
    check.altitudeMetres = altitude;
    return check;
}

}  // namespace

TEST_CASE("without a check a reading stands as it is") {
    CHECK(Calibration{}.corrected(55.5_degC, noon.at) == 55.5_degC);
    CHECK(Calibration{}.inForce(noon.at).changesNothing());
}

TEST_CASE("an ice check takes its offset off exactly") {
    const std::vector checks{iceCheck(noon, 15'000)};
    const Calibration calibration{checks};
    CHECK(calibration.corrected(56.5_degC, noon.at) == 55_degC);
    CHECK(calibration.corrected(56_degC, noon.at) == 54.5_degC);
    SECTION("but not off the readings before it") {
        CHECK(calibration.corrected(56.5_degC, noon.at - Seconds{1}) == 56.5_degC);
    }
}

TEST_CASE("an ice check in fahrenheit is exact too") {
    auto check = iceCheck(noon, 347'000);  // 34.7 °F is 1.5 °C
    check.read.unit = TemperatureUnit::fahrenheit;
    const std::vector checks{check};
    CHECK(Calibration{checks}.corrected(56.5_degC, noon.at) == 55_degC);
}

TEST_CASE("a boiling check alone shifts by what it was wrong") {
    auto check = boilingCheck(noon, 980'000, 0);
    check.pressureHectopascals = 1013.25;
    const std::vector checks{check};
    const auto corrected = Calibration{checks}.corrected(50_degC, noon.at);
    CHECK(corrected.value() == Approx(51.974).margin(0.001));
}

TEST_CASE("a later check rules later readings only") {
    const std::vector checks{iceCheck(noon, 10'000), iceCheck(later(days(10)), 20'000)};
    const Calibration calibration{checks};
    CHECK(calibration.corrected(57_degC, later(days(9)).at) == 56_degC);
    CHECK(calibration.corrected(57_degC, later(days(10)).at) == 55_degC);
}

TEST_CASE("a check reaches back as far as the steward says and overrules older ones on the way") {
    auto reaching = iceCheck(later(days(10)), 20'000);
    reaching.appliesFrom = later(days(2)).at;
    const std::vector checks{reaching, iceCheck(noon, 10'000), iceCheck(later(days(4)), 5'000)};
    const Calibration calibration{checks};
    CHECK(calibration.corrected(57_degC, later(days(1)).at) == 56_degC);
    CHECK(calibration.corrected(57_degC, later(days(2)).at) == 55_degC);
    CHECK(calibration.corrected(57_degC, later(days(5)).at) == 55_degC);
}

TEST_CASE("the latest of each kind work together") {
    const std::vector checks{boilingCheck(noon, 980'000, 500), iceCheck(later(days(1)), 5'000),
                             iceCheck(later(days(2)), 0)};
    const Calibration calibration{checks};
    CHECK(calibration.corrected(55_degC, later(days(1)).at).value() == Approx(54.954).margin(0.001));
    CHECK(calibration.corrected(98_degC, later(days(2)).at).value() == Approx(98.313).margin(0.001));
    CHECK(calibration.corrected(0_degC, later(days(2)).at) == 0_degC);
}

TEST_CASE("a check that cannot be right corrects nothing") {
    const std::vector checks{iceCheck(noon, 990'000), boilingCheck(noon, 10'000, 0)};
    CHECK(Calibration{checks}.inForce(noon.at).changesNothing());
}

TEST_CASE("a check that cannot be right is refused in words") {
    CHECK(plausible(iceCheck(noon, 200'000)));
    CHECK(plausible(iceCheck(noon, 200'001)).error().sentence() ==
          "20.0001 °C in melting ice; expected a reading within 20 °C of 0.0 °C");
    CHECK(plausible(boilingCheck(noon, 983'000, 500)));
    CHECK(plausible(boilingCheck(noon, 550'000, 500)).error().sentence() ==
          "55 °C in boiling water; expected a reading within 20 °C of 98.3 °C");
    CHECK(plausible(boilingCheck(noon, 983'000, 9'001)).error().wrong == "an altitude of 9001 m");
    auto byPressure = boilingCheck(noon, 983'000, 0);
    byPressure.pressureHectopascals = 29.9;
    CHECK(plausible(byPressure).error().wrong == "an air pressure of 29.9 hPa");
    byPressure.pressureHectopascals = std::numeric_limits<double>::quiet_NaN();
    CHECK_FALSE(plausible(byPressure));
}
