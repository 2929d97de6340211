// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/calibration.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace midden {

namespace {

constexpr double partsPerDegree = 90'000;

constexpr double lowestAltitude = -500;
constexpr double highestAltitude = 9'000;
constexpr double lowestPressure = 300;
constexpr double highestPressure = 1'100;
constexpr double mostError = 20;

std::int64_t partsOf(double degrees) {
    return std::llround(degrees * partsPerDegree);
}

Instant beginsAt(const ThermometerCheck& check) {
    return std::min(check.when.at, check.appliesFrom.value_or(check.when.at));
}

/// The newer of two checks; of two at the same instant the one with the larger name, so that every copy agrees.
bool isNewer(const ThermometerCheck& a, const ThermometerCheck* b) {
    return b == nullptr || a.when.at > b->when.at || (a.when.at == b->when.at && a.id.digits >= b->id.digits);
}

Correction correctionBy(const ThermometerCheck* ice, const ThermometerCheck* boiling, Instant since) {
    const Kelvins iceRead = ice != nullptr ? toCelsius(ice->read) - Celsius{} : Kelvins{};
    if (boiling == nullptr) {
        return {since, iceRead, 1};
    }
    const double truth = boilingPointCelsius(*boiling);
    const Kelvins boilingRead = toCelsius(boiling->read) - Celsius{};
    if (ice == nullptr) {
        return {since, boilingRead - Kelvins::ofParts(partsOf(truth)), 1};
    }
    const double span = (boilingRead - iceRead).value();
    return {since, iceRead, truth / span};
}

}  // namespace

double standardPressureHectopascals(double altitudeMetres) {
    // US Standard Atmosphere 1976, layer 0: geopotential height, lapse 6.5 K/km from 288.15 K and 1013.25 hPa.
    constexpr double earthRadius = 6'356'766;
    constexpr double exponent = 9.80665 * 0.0289644 / (8.31432 * 0.0065);
    const double height = earthRadius * altitudeMetres / (earthRadius + altitudeMetres);
    return 1013.25 * std::pow(1 - 0.0065 * height / 288.15, exponent);
}

double boilingPointCelsius(double stationPressureHectopascals) {
    // IAPWS R7-97(2012), equation 31 with the coefficients of table 34; pressure in MPa, temperature in K.
    const double b = std::pow(stationPressureHectopascals / 10'000, 0.25);
    const double e = b * b - 0.17073846940092e2 * b + 0.14915108613530e2;
    const double f = 0.11670521452767e4 * b * b + 0.12020824702470e5 * b - 0.48232657361591e4;
    const double g = -0.72421316703206e6 * b * b - 0.32325550322333e7 * b + 0.40511340542057e6;
    const double d = 2 * g / (-f - std::sqrt(f * f - 4 * e * g));
    constexpr double n9 = -0.23855557567849;
    constexpr double n10 = 0.65017534844798e3;
    const double kelvin = (n10 + d - std::sqrt((n10 + d) * (n10 + d) - 4 * (n9 + n10 * d))) / 2;
    return kelvin - 273.15;
}

double boilingPointCelsius(const ThermometerCheck& check) {
    return boilingPointCelsius(
        check.pressureHectopascals.value_or(standardPressureHectopascals(check.altitudeMetres.value_or(0))));
}

Result<ThermometerCheck> plausible(ThermometerCheck check) {
    const auto outside = [](const std::optional<double>& value, double least, double most) {
        return value && !(*value >= least && *value <= most);
    };
    if (outside(check.altitudeMetres, lowestAltitude, highestAltitude)) {
        return refused(fmt::format("an altitude of {} m", *check.altitudeMetres), "from -500 to 9000 m");
    }
    if (outside(check.pressureHectopascals, lowestPressure, highestPressure)) {
        return refused(fmt::format("an air pressure of {} hPa", *check.pressureHectopascals), "from 300 to 1100 hPa");
    }
    const double truth = check.kind == CheckKind::ice ? 0 : boilingPointCelsius(check);
    if (std::abs(toCelsius(check.read).value() - truth) > mostError) {
        return refused(fmt::format("{} in {}", writtenWithUnit(check.read),
                                   check.kind == CheckKind::ice ? "melting ice" : "boiling water"),
                       fmt::format("a reading within 20 °C of {:.1f} °C", truth));
    }
    return check;
}

Celsius Correction::corrected(Celsius raw) const {
    const Celsius shifted = raw - zero;
    return factor == 1 ? shifted : Celsius::ofParts(std::llround(static_cast<double>(shifted.parts()) * factor));
}

Calibration::Calibration(std::span<const ThermometerCheck> checks) {
    std::vector<const ThermometerCheck*> byBeginning;
    for (const auto& check : checks) {
        if (plausible(check)) {
            byBeginning.push_back(&check);
        }
    }
    std::sort(byBeginning.begin(), byBeginning.end(),
              [](const auto* a, const auto* b) { return beginsAt(*a) < beginsAt(*b); });
    const ThermometerCheck* ice = nullptr;
    const ThermometerCheck* boiling = nullptr;
    for (const auto* check : byBeginning) {
        auto& latest = check->kind == CheckKind::ice ? ice : boiling;
        if (isNewer(*check, latest)) {
            latest = check;
            corrections_.push_back(correctionBy(ice, boiling, beginsAt(*check)));
        }
    }
}

const Correction& Calibration::latestBy(Instant at) const {
    const auto after = std::upper_bound(corrections_.begin(), corrections_.end(), at,
                                        [](Instant moment, const Correction& c) { return moment < c.since; });
    return after == corrections_.begin() ? corrections_.front() : *std::prev(after);
}

}  // namespace midden
