// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/heat_balance.h"

#include <algorithm>
#include <cmath>

#include "core/thermal/heat_response.h"
#include "core/thermal/vent.h"

namespace midden {

namespace {

bool isEarlier(const HeatPoint& point, Instant at) {
    return point.at < at;
}

}  // namespace

std::optional<double> hoursToCool(double tauHours, double from, double to, double outside) {
    if (from <= to) {
        return 0;
    }
    if (to <= outside) {
        return std::nullopt;
    }
    return tauHours * std::log((from - outside) / (to - outside));
}

double wallTimeConstant(const Wall& wall, double massKilograms, double moistureFraction) {
    constexpr double film = 0.17;         // m²K/W, both faces together
    constexpr double ofWater = 4.186;     // kJ/kgK
    constexpr double ofDryMatter = 1.25;  // kJ/kgK
    const double capacity =
        massKilograms * (moistureFraction * ofWater + (1 - moistureFraction) * ofDryMatter) * 1'000;  // J/K
    const double loss =
        wall.areaSquareMetres / (wall.thicknessMetres / wall.conductivity + film) + wall.airWattsPerKelvin;  // W/K
    return capacity / loss / 3'600;
}

std::optional<TimeConstant> timeConstantOfWall(const Bin& bin) {
    const auto isKnown = [](const std::optional<double>& value) { return value && *value > 0; };
    if (!isKnown(bin.volumeLitres) || !isKnown(bin.insulationMillimetres) ||
        !isKnown(bin.conductivityWattsPerMetreKelvin)) {
        return std::nullopt;
    }
    constexpr double kilogramsPerLitre = 0.5;
    constexpr double moisture = 0.6;
    const double edge = std::cbrt(*bin.volumeLitres / 1'000);
    const Wall wall{6 * edge * edge, *bin.insulationMillimetres / 1'000, *bin.conductivityWattsPerMetreKelvin};
    // Air that is known to go through takes heat as well. It takes more than in proportion the hotter it is; 55 °C with
    // 10 °C outside stand for all. What openings let through at the most only makes the shorter end shorter.
    constexpr double warm = 55;
    constexpr double cool = 10;
    const double mass = *bin.volumeLitres * kilogramsPerLitre;
    const auto air = airThrough(bin, warm, cool);
    Wall withAir = wall;
    withAir.airWattsPerKelvin = air ? ventWatts(air->cubicMetresAnHour, warm, cool) / (warm - cool) : 0;
    const double shortest = wallTimeConstant(withAir, mass, moisture);
    const double tau = air && !air->isMost ? shortest : wallTimeConstant(wall, mass, moisture);
    return TimeConstant{tau, shortest / 2, tau * 2, TauBasis::wall, 0, 0};
}

std::optional<double> biotOf(const Bin& bin) {
    if (!bin.volumeLitres || *bin.volumeLitres <= 0 || !bin.insulationMillimetres) {
        return std::nullopt;
    }
    const double thickness = *bin.insulationMillimetres / 1'000;
    const double conductivity = bin.conductivityWattsPerMetreKelvin.value_or(0);
    if (thickness > 0 && conductivity <= 0) {
        return std::nullopt;
    }
    constexpr double film = 0.17;      // m²K/W, as for the time constant
    constexpr double ofCompost = 0.4;  // W/mK
    const double edge = std::cbrt(*bin.volumeLitres / 1'000);
    const double u = 1 / ((thickness > 0 ? thickness / conductivity : 0) + film);
    return u * edge / 6 / ofCompost;
}

bool isPoorLump(const Bin& bin) {
    const auto biot = biotOf(bin);
    return biot && *biot > 1;
}

std::optional<double> outsideAt(std::span<const HeatPoint> outside, Instant at, Seconds reach) {
    const auto after = std::lower_bound(outside.begin(), outside.end(), at, isEarlier);
    const bool hasAfter = after != outside.end() && after->at - at <= reach;
    const bool hasBefore = after != outside.begin() && at - std::prev(after)->at <= reach;
    if (hasAfter && hasBefore) {
        const auto& before = *std::prev(after);
        const double way = (at - before.at).hours() / (after->at - before.at).hours();
        return before.celsius + way * (after->celsius - before.celsius);
    }
    if (hasAfter) {
        return after->celsius;
    }
    return hasBefore ? std::optional{std::prev(after)->celsius} : std::nullopt;
}

std::optional<OutsidePath> outsidePath(const HeatSeries& series, Instant from, Instant to, Seconds reach) {
    const auto first = outsideAt(series.outside, from, reach);
    const auto last = outsideAt(series.outside, to, reach);
    if (!first || !last) {
        return std::nullopt;
    }
    OutsidePath path{{from, *first}};
    auto point = std::lower_bound(series.outside.begin(), series.outside.end(), from, isEarlier);
    for (; point != series.outside.end() && point->at < to; ++point) {
        if (point->at > from) {
            path.push_back(*point);
        }
    }
    path.push_back({to, *last});
    return path;
}

HeatResponse responseOver(const OutsidePath& outside, double tauHours) {
    HeatResponse response;
    for (std::size_t i = 1; i < outside.size(); ++i) {
        const double length = (outside[i].at - outside[i - 1].at).hours();
        const double kept = std::exp(-length / tauHours);
        const double gained = -tauHours * std::expm1(-length / tauHours);
        const double slope = (outside[i].celsius - outside[i - 1].celsius) / length;
        response.own *= kept;
        response.fromOutside =
            outside[i].celsius + (response.fromOutside - outside[i - 1].celsius) * kept - slope * gained;
        response.perRate = response.perRate * kept + gained;
    }
    return response;
}

bool isDisturbed(const HeatSeries& series, Instant from, Instant to) {
    const auto next = std::upper_bound(series.disturbances.begin(), series.disturbances.end(), from);
    return next != series.disturbances.end() && *next <= to;
}

std::vector<HeatRate> heatRates(const HeatSeries& series, const TimeConstant& tau, const HeatSettings& settings) {
    std::vector<HeatRate> rates;
    for (std::size_t i = 1; i < series.bin.size(); ++i) {
        const auto& [from, start] = series.bin[i - 1];
        const auto& [to, end] = series.bin[i];
        if (to - from > settings.maxGap || isDisturbed(series, from, to)) {
            continue;
        }
        const auto path = outsidePath(series, from, to, settings.outsideReach);
        if (!path) {
            continue;
        }
        HeatRate found{from, to};
        for (const double hours : {tau.low, tau.high, tau.hours}) {
            const auto response = responseOver(*path, hours);
            found.rate = (end - response.after(start, 0)) / response.perRate;
            const double error = 2 * settings.scatter * std::hypot(1, response.own) / response.perRate;
            found.low = hours == tau.low ? found.rate - error : std::min(found.low, found.rate - error);
            found.high = hours == tau.low ? found.rate + error : std::max(found.high, found.rate + error);
        }
        rates.push_back(found);
    }
    return rates;
}

}  // namespace midden
