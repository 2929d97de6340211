// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/mixture.h"

#include <algorithm>

namespace midden {
namespace {

constexpr double litresPerCubicMetre = 1'000;
constexpr double volatilePerCarbon = 1.8;

/// One portion's dry mass, carbon and nitrogen, and how far each may be off.
struct Solids {
    Estimate dryKilograms;
    double carbonFraction = 0;  ///< of the dry mass; steady while nitrogen varies, see portionOf(Material)
    Estimate nitrogenFraction;
};

Estimate scaled(const Estimate& e, double factor) {
    return {e.typical * factor, {e.within.low * factor, e.within.high * factor}, e.spreadKnown};
}

Solids solidsOf(const Portion& portion) {
    const Estimate& moisture = *portion.moisturePercent;
    const Estimate dryFraction{1 - moisture.typical / 100,
                               {1 - moisture.within.high / 100, 1 - moisture.within.low / 100},
                               moisture.spreadKnown};
    return {scaled(dryFraction, portion.kilograms), portion.carbonPercent.value_or(0) / 100,
            scaled(portion.nitrogenPercent.value_or(Estimate::exactly(0)), 0.01)};
}

std::optional<double> ratio(double carbon, double nitrogen) {
    return nitrogen > 0 ? std::optional{carbon / nitrogen} : std::nullopt;
}

/// The C:N of the mixture with its highest (or lowest) nitrogen ratios, and of each dry mass the more when the
/// material's own C:N lies on that side of `pivot`, the less when it lies on the other.
std::optional<double> pushedRatio(std::span<const Solids> all, bool up, std::optional<double> pivot) {
    double carbon = 0;
    double nitrogen = 0;
    for (const Solids& s : all) {
        const double n = up ? s.nitrogenFraction.within.low : s.nitrogenFraction.within.high;
        const bool helps = pivot && (s.carbonFraction > *pivot * n) == up;
        const Bounds& possible = s.dryKilograms.within;
        const double dry = helps ? possible.high : pivot ? possible.low : s.dryKilograms.typical;
        carbon += dry * s.carbonFraction;
        nitrogen += dry * n;
    }
    return ratio(carbon, nitrogen);
}

/// The highest or lowest C:N over all ranges. C:N is a quotient of sums, so a material pushes it up exactly when its
/// own C:N is above the result: start anywhere, choose, recompute, until nothing changes (Dinkelbach 1967). Exact.
std::optional<double> extremeRatio(std::span<const Solids> all, bool up) {
    std::optional<double> found = pushedRatio(all, up, std::nullopt);
    for (std::size_t round = 0; found && round <= 2 * all.size() + 2; ++round) {
        const auto next = pushedRatio(all, up, found);
        if (next == found) {
            break;
        }
        found = next;
    }
    return found;
}

std::vector<Solids> solidsOfAll(std::span<const Portion> portions) {
    std::vector<Solids> all;
    for (const Portion& portion : portions) {
        if (portion.kilograms > 0) {
            all.push_back(solidsOf(portion));
        }
    }
    return all;
}

void fillMoisture(Mixture& mixture, std::span<const Portion> portions) {
    double water = 0;
    Bounds within;
    for (const Portion& portion : portions) {
        if (portion.kilograms <= 0) {
            continue;
        }
        if (!portion.moisturePercent) {
            return;
        }
        water += portion.kilograms * portion.moisturePercent->typical;
        within.low += portion.kilograms * portion.moisturePercent->within.low;
        within.high += portion.kilograms * portion.moisturePercent->within.high;
    }
    const double mass = mixture.wetMassKilograms;
    if (mass > 0) {
        mixture.moisturePercent = water / mass;
        mixture.moistureRange = Bounds{within.low / mass, within.high / mass};
    }
}

void fillCarbonNitrogen(Mixture& mixture, std::span<const Portion> portions) {
    if (!mixture.withoutFigures.empty()) {
        return;
    }
    const auto solids = solidsOfAll(portions);
    double carbon = 0;
    double nitrogen = 0;
    for (const Solids& s : solids) {
        carbon += s.dryKilograms.typical * s.carbonFraction;
        nitrogen += s.dryKilograms.typical * s.nitrogenFraction.typical;
    }
    mixture.carbonNitrogen = ratio(carbon, nitrogen);
    const auto low = extremeRatio(solids, false);
    const auto high = extremeRatio(solids, true);
    if (mixture.carbonNitrogen && low && high) {
        mixture.carbonNitrogenRange =
            Bounds{std::min(*low, *mixture.carbonNitrogen), std::max(*high, *mixture.carbonNitrogen)};
    }
}

void fillVolume(Mixture& mixture, std::span<const Portion> portions) {
    double litres = 0;
    double dry = 0;
    double carbon = 0;
    for (const Portion& portion : portions) {
        if (portion.kilograms <= 0 || portion.isWater()) {
            continue;
        }
        if (!portion.bulkDensity) {
            return;
        }
        litres += portion.kilograms / portion.bulkDensity->typical * litresPerCubicMetre;
        const double dryHere =
            portion.moisturePercent ? portion.kilograms * (1 - portion.moisturePercent->typical / 100) : 0;
        dry += dryHere;
        carbon += dryHere * portion.carbonPercent.value_or(0) / 100;
    }
    if (litres <= 0) {
        return;
    }
    mixture.volumeLitres = litres;
    mixture.bulkDensity = mixture.wetMassKilograms / litres * litresPerCubicMetre;
    if (mixture.moisturePercent && mixture.withoutFigures.empty() && dry > 0) {
        mixture.freeAirSpacePercent = freeAirSpacePercent(*mixture.bulkDensity, *mixture.moisturePercent,
                                                          std::min(1.0, volatilePerCarbon * carbon / dry));
    }
}

void listUncertain(Mixture& mixture, std::span<const Portion> portions) {
    for (const Portion& portion : portions) {
        if (portion.kilograms <= 0 || portion.isWater()) {
            continue;
        }
        if (!hasAllFigures(portion)) {
            mixture.withoutFigures.push_back(portion.material);
        } else if (!portion.moisturePercent->spreadKnown || !portion.nitrogenPercent->spreadKnown) {
            mixture.withoutSpread.push_back(portion.material);
        }
    }
}

}  // namespace

bool hasAllFigures(const Portion& portion) {
    return portion.isWater() || (portion.moisturePercent && portion.carbonPercent && portion.nitrogenPercent);
}

Mixture mixtureOf(std::span<const Portion> portions) {
    Mixture mixture;
    for (const Portion& portion : portions) {
        mixture.wetMassKilograms += portion.kilograms;
    }
    listUncertain(mixture, portions);
    fillMoisture(mixture, portions);
    fillCarbonNitrogen(mixture, portions);
    fillVolume(mixture, portions);
    return mixture;
}

std::optional<Mixture> mixtureOf(std::span<const Addition> additions, const Materials& materials) {
    if (additions.empty()) {
        return std::nullopt;
    }
    std::vector<Portion> portions;
    for (const Addition& addition : additions) {
        portions.push_back(portionOf(addition, materials));
    }
    return mixtureOf(portions);
}

std::vector<MixtureSince> runningMixture(std::span<const Addition> additions, const Materials& materials) {
    std::vector<MixtureSince> running;
    std::vector<Portion> soFar;
    for (const Addition& addition : additions) {
        soFar.push_back(portionOf(addition, materials));
        if (running.empty() || running.back().since != addition.when.at) {
            running.push_back({addition.when.at, {}});
        }
        running.back().mixture = mixtureOf(soFar);
    }
    return running;
}

std::optional<double> freeAirSpacePercent(double bulkDensity, double moisturePercent, double volatileFraction) {
    const double moisture = moisturePercent / 100;
    const double litresPerKilogramOfSolids = volatileFraction / 1.0 + (1 - volatileFraction) / 2.5;
    const double filled = bulkDensity / litresPerCubicMetre * (moisture + (1 - moisture) * litresPerKilogramOfSolids);
    return filled <= 1 ? std::optional{100 * (1 - filled)} : std::nullopt;
}

}  // namespace midden
