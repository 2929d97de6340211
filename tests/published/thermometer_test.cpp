// SPDX-License-Identifier: GPL-3.0-or-later
// Thermometer arithmetic against what others have published.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <sstream>

#include "core/thermal/calibration.h"
#include "core/thermal/heat_balance.h"
#include "core/thermal/vent.h"

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

TEST_CASE("water vapour over water presses as the steam tables have it") {
    // IAPWS R7-97(2012), table 35: 300 K 3.53658941e-3 MPa; and 372.755919 K is where it is 0.1 MPa (table 36).
    CHECK(saturationKilopascals(300 - 273.15) == Approx(3.53658941).epsilon(1e-8));
    CHECK(saturationKilopascals(372.755919 - 273.15) == Approx(100).epsilon(1e-7));
}

TEST_CASE("a cubic metre of saturated air an hour carries what the enthalpies say") {
    // Worked out by hand: at 55 °C 15.76 kPa of vapour, 0.104 kg in a cubic metre, at 2,371 kJ/kg 69 W; with the
    // warming of the air and what the air at 10 °C and 80 % brought in taken off, 83 W.
    CHECK(evaporationWatts(1, 55) == Approx(69).margin(0.6));
    CHECK(ventWatts(1, 55, 10) == Approx(82.8).margin(0.1));
    CHECK(ventWatts(2, 55, 10) == Approx(2 * ventWatts(1, 55, 10)));
    CHECK(ventWatts(1, 20, 20, 1) == Approx(0).margin(1e-9));
}

TEST_CASE("a chimney draws as the flue table of a building trades pocketbook has it") {
    // Building Trades Pocketbook, "Natural Ventilation", table "Flow of air in flues per square foot of section, by
    // natural draft, in cubic feet per minute" (chestofbooks.com/architecture/Building-Trades-Pocketbook). It takes
    // half of the theoretical flow where we take 0.65, and air of 32 °F outside, which its figures show. Its cells for
    // a difference of 10, 50 and 100 °F; those that the copy garbles are left out.
    struct Cell {
        double fahrenheitWarmer;
        double feet;
        double cubicFeetAMinute;
    };
    constexpr double squareFoot = 929.0304;
    constexpr double cubicMetre = 35.3146667;
    for (const auto& [warmer, feet, flow] :
         {Cell{10, 10, 108},    Cell{10, 15, 133},  Cell{10, 20, 153},  Cell{10, 30, 188},  Cell{10, 40, 217},
          Cell{10, 50, 242},    Cell{10, 60, 264},  Cell{10, 80, 306},  Cell{10, 100, 342}, Cell{50, 10, 242},
          Cell{50, 15, 297},    Cell{50, 20, 342},  Cell{50, 30, 419},  Cell{50, 40, 484},  Cell{50, 50, 541},
          Cell{50, 60, 594},    Cell{50, 80, 680},  Cell{50, 100, 768}, Cell{100, 10, 342}, Cell{100, 15, 419},
          Cell{100, 20, 484},   Cell{100, 40, 684}, Cell{100, 50, 765}, Cell{100, 60, 835}, Cell{100, 80, 965},
          Cell{100, 100, 1'080}}) {
        INFO(warmer << " °F warmer, " << feet << " ft");
        const double ours = stackCubicMetresAnHour(squareFoot, feet * 30.48, warmer / 1.8, 0);
        CHECK(ours * 0.5 / 0.65 * cubicMetre / 60 == Approx(flow).epsilon(0.01));
    }
    CHECK(stackCubicMetresAnHour(20, 80, 10, 10) == 0);
    CHECK(stackCubicMetresAnHour(20, 80, 5, 10) == 0);
}

TEST_CASE("heat that leaves with air shortens the time a bin holds its warmth") {
    // 2.689 m² of 50 mm of 0.035 W/mK lose 1.682 W/K, 150 kg at 60 % moisture hold 451.7 kJ/K: 74.6 h. With 1.104 W/K
    // of air beside it 451'700 / 2.786 / 3'600 = 45.0 h.
    Wall wall{6 * std::pow(0.3, 2.0 / 3), 0.05, 0.035};
    CHECK(wallTimeConstant(wall, 150, 0.6) == Approx(74.6).margin(0.05));
    wall.airWattsPerKelvin = 1.104;
    CHECK(wallTimeConstant(wall, 150, 0.6) == Approx(45.0).margin(0.05));
}

TEST_CASE("air that is known to go through a bin takes its heat") {
    // 300 L in 50 mm of foam hold their warmth 74.6 h: 1.682 W/K through the walls, 451.7 kJ/K. Two changes of air an
    // hour are 0.6 m³, 49.7 W at 55 °C with 10 °C outside, 1.104 W/K: 451'700 / (1.682 + 1.104) / 3'600 = 45.0 h.
    Bin bin;
    bin.volumeLitres = 300;
    bin.insulationMillimetres = 50;
    bin.conductivityWattsPerMetreKelvin = 0.035;
    CHECK_FALSE(airThrough(bin, 55, 10));
    CHECK(timeConstantOfWall(bin)->hours == Approx(74.6).margin(0.05));
    CHECK(timeConstantOfWall(bin)->low == Approx(37.3).margin(0.05));
    // Openings say what it can be at the most: √(2·9.81·0.8·45/283.15) = 1.579 m/s, by 0.65 and 20 cm² 7.39 m³ an hour.
    bin.ventSquareCentimetres = 20;
    CHECK_FALSE(airThrough(bin, 55, 10));
    bin.ventRiseCentimetres = 80;
    CHECK(airThrough(bin, 55, 10)->isMost);
    CHECK(airThrough(bin, 55, 10)->cubicMetresAnHour == Approx(7.39).margin(0.005));
    CHECK(timeConstantOfWall(bin)->hours == Approx(74.6).margin(0.05));
    CHECK(timeConstantOfWall(bin)->high == Approx(149.2).margin(0.1));
    // 612 W, 13.6 W/K: 451'700 / 15.28 / 3'600 = 8.21 h, half of it the shorter end.
    CHECK(timeConstantOfWall(bin)->low == Approx(4.1).margin(0.05));
    // Changes of air are known, and go before openings.
    bin.airChangesPerHour = 2;
    CHECK_FALSE(airThrough(bin, 55, 10)->isMost);
    CHECK(airThrough(bin, 55, 10)->cubicMetresAnHour == Approx(0.6));
    CHECK(timeConstantOfWall(bin)->hours == Approx(45.0).margin(0.05));
    CHECK(timeConstantOfWall(bin)->high == Approx(90.1).margin(0.1));
    bin.volumeLitres.reset();
    CHECK(airThrough(bin, 55, 10)->isMost);
}

TEST_CASE("a bare plastic bin is a poor lump and an insulated one is not") {
    // 300 L as a cube, U = 1/(0.05/0.035 + 0.17) = 0.6256 W/m²K, edge/6 = 0.1116 m, 0.4 W/mK: 0.17; bare: 1.6.
    Bin bin;
    bin.volumeLitres = 300;
    CHECK_FALSE(biotOf(bin));
    CHECK_FALSE(isPoorLump(bin));
    bin.insulationMillimetres = 50;
    bin.conductivityWattsPerMetreKelvin = 0.035;
    CHECK(*biotOf(bin) == Approx(0.1745).margin(0.0005));
    CHECK_FALSE(isPoorLump(bin));
    bin.insulationMillimetres = 0;
    CHECK(*biotOf(bin) == Approx(1.64).margin(0.005));
    CHECK(isPoorLump(bin));
}
