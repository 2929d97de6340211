// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/vent.h"

#include <cmath>

namespace midden {

namespace {

constexpr double airKilopascals = 101.325;
constexpr double gasConstantDryAir = 0.287055;  // kJ/kgK
constexpr double gasConstantVapour = 0.461526;  // kJ/kgK, IAPWS R7-97
constexpr double zeroCelsius = 273.15;

/// Kilograms of vapour in a kilogram of dry air.
double humidityRatio(double vapourKilopascals) {
    return 0.622 * vapourKilopascals / (airKilopascals - vapourKilopascals);
}

double enthalpy(double celsius, double ratio) {
    return 1.006 * celsius + ratio * (2'501 + 1.86 * celsius);
}

}  // namespace

double saturationKilopascals(double celsius) {
    const double kelvin = celsius + zeroCelsius;
    const double t = kelvin + -0.23855557567849 / (kelvin - 0.65017534844798e3);
    const double a = t * t + 0.11670521452767e4 * t - 0.72421316703206e6;
    const double b = -0.17073846940092e2 * t * t + 0.12020824702470e5 * t - 0.32325550322333e7;
    const double c = 0.14915108613530e2 * t * t - 0.48232657361591e4 * t + 0.40511340542057e6;
    return 1'000 * std::pow(2 * c / (-b + std::sqrt(b * b - 4 * a * c)), 4);
}

double moistAirEnthalpy(double celsius, double humidity) {
    return enthalpy(celsius, humidityRatio(humidity * saturationKilopascals(celsius)));
}

double ventWatts(double cubicMetresAnHour, double inside, double outside, double humidityOutside) {
    const double vapour = saturationKilopascals(inside);
    const double dryKilograms =
        cubicMetresAnHour * (airKilopascals - vapour) / (gasConstantDryAir * (inside + zeroCelsius));
    const double comesIn = humidityRatio(humidityOutside * saturationKilopascals(outside));
    const double kilojoules = enthalpy(inside, humidityRatio(vapour)) - enthalpy(outside, comesIn);
    return dryKilograms * kilojoules / 3.6;
}

double evaporationWatts(double cubicMetresAnHour, double inside) {
    const double vapourKilograms =
        cubicMetresAnHour * saturationKilopascals(inside) / (gasConstantVapour * (inside + zeroCelsius));
    return vapourKilograms * (2'501 - 2.36 * inside) / 3.6;
}

double stackCubicMetresAnHour(double squareCentimetres, double riseCentimetres, double inside, double outside) {
    if (inside <= outside) {
        return 0;
    }
    constexpr double discharge = 0.65;
    constexpr double gravity = 9.81;  // m/s²
    const double speed = std::sqrt(2 * gravity * riseCentimetres / 100 * (inside - outside) / (outside + zeroCelsius));
    return discharge * squareCentimetres / 10'000 * speed * 3'600;
}

std::optional<AirThrough> airThrough(const Bin& bin, double inside, double outside) {
    if (bin.airChangesPerHour && bin.volumeLitres) {
        return AirThrough{*bin.airChangesPerHour * *bin.volumeLitres / 1'000, false};
    }
    if (bin.ventSquareCentimetres && bin.ventRiseCentimetres) {
        return AirThrough{stackCubicMetresAnHour(*bin.ventSquareCentimetres, *bin.ventRiseCentimetres, inside, outside),
                          true};
    }
    return std::nullopt;
}

}  // namespace midden
