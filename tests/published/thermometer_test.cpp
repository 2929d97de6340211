// SPDX-License-Identifier: GPL-3.0-or-later
// Thermometer arithmetic against what others have published.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <sstream>

#include "core/thermal/calibration.h"

using namespace midden;
using namespace midden::literals;

TEST_CASE("the boiling point agrees with the verification value of IAPWS R7-97 table 36") {
    // IAPWS R7-97(2012), table 36: Ts(0.1 MPa) = 372.755919 K (from memory of the table; recomputed independently).
    CHECK(boilingPointCelsius(1'000) + 273.15 == Approx(372.755919).margin(1e-6));
}

TEST_CASE("the boiling point at a pressure agrees with values computed by another program") {
    // python3-iapws 1.5.3 (Debian 12), IAPWS-IF97 saturation line.
    CHECK(boilingPointCelsius(980) == Approx(99.042).margin(0.0006));
    CHECK(boilingPointCelsius(1'013.25) == Approx(99.974).margin(0.0006));
    CHECK(boilingPointCelsius(1'030) == Approx(100.434).margin(0.0006));
    CHECK(boilingPointCelsius(1'040) == Approx(100.706).margin(0.0006));
}

namespace {

struct HeightRow {
    double altitude = 0;
    double pascals = 0;
    double celsius = 0;
};

/// data/boiling_point_altitude.csv: computed with python3-fluids 1.0.22 (US Standard Atmosphere 1976) and
/// python3-iapws 1.5.3, cross-checked there with the Wagner-Pruss vapour pressure equation.
std::vector<HeightRow> heightTable() {
    std::ifstream file{std::string{MIDDENBOOK_SOURCE_DIR} + "/tests/published/data/boiling_point_altitude.csv"};
    std::vector<HeightRow> rows;
    HeightRow row;
    for (std::string line; std::getline(file, line);) {
        if (std::sscanf(line.c_str(), "%lf,%lf,%lf", &row.altitude, &row.pascals, &row.celsius) == 3) {
            rows.push_back(row);
        }
    }
    return rows;
}

}  // namespace

TEST_CASE("the boiling point at a height agrees with the table within two hundredths of a degree") {
    CHECK(heightTable().size() == 17);
    for (const auto& row : heightTable()) {
        CAPTURE(row.altitude);
        const auto pressure = standardPressureHectopascals(row.altitude);
        const bool agrees = pressure * 100 == Approx(row.pascals).margin(0.2) &&
                            boilingPointCelsius(pressure) == Approx(row.celsius).margin(0.001);
        CHECK(agrees);
    }
}

TEST_CASE("the kitchen rule of 0.6 degrees per 168 m stays within a quarter of a degree of the truth below 1000 m") {
    // Common practice (kitchen thermometer sheets): boiling falls by 0.6 °C every 168 m; 336 m gives 98.8 °C.
    const auto rule = [](double metres) { return 100 - 0.6 * metres / 168; };
    CHECK(rule(336) == Approx(98.8));
    for (int metres = 0; metres <= 1'000; metres += 50) {
        CAPTURE(metres);
        CHECK(std::abs(rule(metres) - boilingPointCelsius(standardPressureHectopascals(metres))) < 0.25);
    }
}

TEST_CASE("the two point correction of a worked example") {
    // Ice 0.5, boiling 98.0 at 500 m, reading 55: (55 − 0.5) · 98.313 / 97.5 = 54.954.
    ThermometerCheck ice;
    ice.read = {5'000, TemperatureUnit::celsius};
    ThermometerCheck boiling;
    boiling.kind = CheckKind::boiling;
    boiling.read = {980'000, TemperatureUnit::celsius};
    boiling.altitudeMetres = 500;
    const std::vector checks{ice, boiling};
    CHECK(Calibration{checks}.corrected(55_degC, {}).value() == Approx(54.954).margin(0.0005));
}

TEST_CASE("an ice bath that reads 1.5 turns 56.0 into 54.5 and 56.5 into 55") {
    ThermometerCheck ice;
    ice.read = {15'000, TemperatureUnit::celsius};
    const std::vector checks{ice};
    CHECK(Calibration{checks}.corrected(56_degC, {}) == 54.5_degC);
    CHECK(Calibration{checks}.corrected(56.5_degC, {}) == 55_degC);
}
