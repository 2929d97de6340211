// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/balance.h"

#include <algorithm>
#include <cmath>

#include "core/recipe/balance_programme.h"
#include "core/recipe/balance_words.h"

namespace midden {
namespace {

/// A figure within this part of its goal is on it: GLPK works to about nine digits.
constexpr double tolerance = 1e-6;

bool lies(std::optional<double> figure, const std::optional<Bounds>& goal) {
    if (!goal) {
        return true;
    }
    return figure && *figure >= goal->low - tolerance * std::max(1.0, goal->low) &&
           *figure <= goal->high + tolerance * std::max(1.0, goal->high);
}

bool lacksFigures(const Portion& portion, const Goals& goals) {
    if (portion.kilograms <= 0) {
        return false;
    }
    return goals.carbonNitrogen ? !hasAllFigures(portion) : goals.moisturePercent && !portion.moisturePercent;
}

/// The materials whose figures the goals need and nobody gave.
std::vector<std::string> unknownMaterials(std::span<const Portion> given, std::span<const ToHand> toHand,
                                          const Goals& goals) {
    std::vector<std::string> names;
    for (const Portion& portion : given) {
        if (lacksFigures(portion, goals)) {
            names.push_back(portion.material);
        }
    }
    for (ToHand offer : std::vector(toHand.begin(), toHand.end())) {
        offer.material.kilograms = 1;
        if (lacksFigures(offer.material, goals)) {
            names.push_back(offer.material.material);
        }
    }
    return names;
}

Mixture mixedWith(std::span<const Portion> given, std::span<const ToHand> toHand, std::span<const double> kilograms) {
    std::vector<Portion> all{given.begin(), given.end()};
    for (std::size_t i = 0; i < toHand.size(); ++i) {
        all.push_back(toHand[i].material);
        all.back().kilograms = kilograms[i];
    }
    return mixtureOf(all);
}

bool meets(const Mixture& mixture, const Goals& goals) {
    return lies(mixture.moisturePercent, goals.moisturePercent) && lies(mixture.carbonNitrogen, goals.carbonNitrogen);
}

/// What GLPK leaves of 0 after its last digits, on either side. The verdict is over figures computed afterwards.
void roundOffNoise(std::vector<double>& kilograms) {
    constexpr double noise = 1e-8;
    for (double& mass : kilograms) {
        if (std::abs(mass) < noise) {
            mass = 0;
        }
    }
}

}  // namespace

Balance balance(std::span<const Portion> given, std::span<const ToHand> toHand, const Goals& goals, Aim aim) {
    Balance answer;
    for (const ToHand& material : toHand) {
        answer.kilograms.push_back(material.atLeast);
    }
    answer.mixture = mixedWith(given, toHand, answer.kilograms);
    if (const auto unknown = unknownMaterials(given, toHand, goals); !unknown.empty()) {
        answer.why = unknownWords(unknown);
        return answer;
    }
    const BalanceProgramme programme{given, toHand, goals};
    auto masses = programme.solve(aim);
    if (masses) {
        roundOffNoise(*masses);
        answer.kilograms = *masses;
        answer.mixture = mixedWith(given, toHand, *masses);
        answer.feasible = answer.mixture.wetMassKilograms > 0 && meets(answer.mixture, goals);
    } else if ((masses = programme.nearest())) {
        roundOffNoise(*masses);
        answer.kilograms = *masses;
        answer.mixture = mixedWith(given, toHand, *masses);
    }
    if (!answer.feasible) {
        answer.why = infeasibleWords({given, toHand, goals, aim}, answer.mixture);
    }
    return answer;
}

}  // namespace midden
