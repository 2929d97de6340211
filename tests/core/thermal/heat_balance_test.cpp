// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/heat_balance.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace midden;

namespace {

constexpr HeatSettings settings{.maxGap = hours(36), .outsideReach = hours(36)};

Instant atHour(double hour) {
    return {static_cast<std::int64_t>(hour * 3'600)};
}

/// A bin without heating, read every `step` hours for four days, outside 10 °C.
HeatSeries coolingBin(double tau, double start, double step) {
    HeatSeries series;
    for (int i = 0; i * step <= 96; ++i) {
        const double hour = i * step;
        series.bin.push_back({atHour(hour), 10 + (start - 10) * std::exp(-hour / tau)});
        series.outside.push_back({atHour(hour), 10});
    }
    return series;
}

}  // namespace

// Closed form: time = tau ln[(T0 - Ta)/(T1 - Ta)].
TEST_CASE("an unheated bin of 48 hours cools from 60 degrees in the hours of the exponential law") {
    CHECK(*hoursToCool(48, 60, 55, 10) == Approx(5.0573).margin(5e-5));
    CHECK(*hoursToCool(48, 60, 45, 10) == Approx(17.1204).margin(5e-5));
    CHECK(*hoursToCool(48, 60, 40, 10) == Approx(24.5196).margin(5e-5));
    CHECK_FALSE(hoursToCool(48, 60, 10, 10));
    CHECK(*hoursToCool(48, 60, 60, 10) == 0);
}

// A box of 0.5 by 0.5 by 0.8 m with 60 mm of foam of 0.035 W/mK and 100 kg at 60 % moisture: worked by hand.
TEST_CASE("the time constant of a wall follows from mass and insulation") {
    CHECK(wallTimeConstant({2.1, 0.06, 0.035}, 100, 0.6) == Approx(75).margin(0.5));
    Bin bin;
    bin.volumeLitres = 200;
    bin.insulationMillimetres = 60;
    CHECK_FALSE(timeConstantOfWall(bin));
    bin.conductivityWattsPerMetreKelvin = 0.035;
    const auto tau = timeConstantOfWall(bin);
    REQUIRE(tau);
    CHECK(tau->hours == Approx(76.8).margin(0.5));
    CHECK(tau->low == Approx(tau->hours / 2));
    CHECK(tau->high == Approx(tau->hours * 2));
    bin.insulationMillimetres = 0;
    CHECK_FALSE(timeConstantOfWall(bin));
}

TEST_CASE("a clean cool down gives its time constant and no heating") {
    const auto series = coolingBin(48, 60, 8);
    const auto tau = timeConstantOfCoolDowns(series, settings);
    REQUIRE(tau);
    CHECK(tau->hours == Approx(48).epsilon(0.001));
    CHECK(tau->low < 48);
    CHECK(tau->high > 48);
    const auto rates = heatRates(series, *tau, settings);
    CHECK(rates.size() == 12);
    CHECK(std::all_of(rates.begin(), rates.end(), [](const HeatRate& rate) {
        return std::abs(rate.rate) < 0.001 && rate.low < 0 && rate.high > 0;
    }));
}

TEST_CASE("a steady excess over the air is steady heating") {
    HeatSeries series;
    for (const int hour : {0, 24, 48, 72, 96}) {
        series.bin.push_back({atHour(hour), 58});
        series.outside.push_back({atHour(hour), 10});
    }
    CHECK_FALSE(timeConstantOfCoolDowns(series, settings));
    const auto rates = heatRates(series, {48, 40, 60}, settings);
    REQUIRE(rates.size() == 4);
    CHECK(rates[0].rate == Approx(1.0));
    CHECK(rates[0].low < 48.0 / 60);
    CHECK(rates[0].high > 48.0 / 40);
}

TEST_CASE("no balance is made across an addition a long gap or without the air outside") {
    auto series = coolingBin(48, 60, 24);
    REQUIRE(heatRates(series, {48, 48, 48}, settings).size() == 4);
    series.disturbances.push_back(atHour(30));
    CHECK(heatRates(series, {48, 48, 48}, settings).size() == 3);
    CHECK_FALSE(timeConstantOfCoolDowns(series, settings));
    series.bin.erase(series.bin.begin() + 3);
    CHECK(heatRates(series, {48, 48, 48}, settings).size() == 1);
    series.outside.clear();
    CHECK(heatRates(series, {48, 48, 48}, settings).empty());
}

TEST_CASE("the outside temperature is joined by straight lines and not stretched further than it reaches") {
    const std::vector<HeatPoint> outside{{atHour(0), 4}, {atHour(10), 14}};
    CHECK(*outsideAt(outside, atHour(5), hours(36)) == Approx(9));
    CHECK(*outsideAt(outside, atHour(40), hours(36)) == 14);
    CHECK_FALSE(outsideAt(outside, atHour(47), hours(36)));
    CHECK(*outsideAt(outside, atHour(-3), hours(36)) == 4);
}
