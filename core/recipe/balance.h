// SPDX-License-Identifier: GPL-3.0-or-later
// The smallest change that mends a mixture, as a linear programme.
//
// Both figures are quotients, but "moisture at least G" is linear in the masses: ΣQ(M−G) ≥ 0, and "C:N at least R" is
// ΣQ(100−M)(C−R·N) ≥ 0 (the handbook equations of mixture.h, multiplied out). All special cases of the handbooks, a
// second or third material for one goal, water to add, two materials for both goals at once, are this one programme.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/recipe/mixture.h"

namespace midden {

/// Where moisture and C:N are to come out. Low = high asks for that very figure.
struct Goals {
    std::optional<Bounds> moisturePercent;
    std::optional<Bounds> carbonNitrogen;
};

/// Bands for a heap that is to heat: NRAES-54 table of recommended conditions, from memory; Cooperband 2002 as quoted
/// at studylib.net/doc/7622894 gives 20–40 and 40–65 as acceptable, 25–35 and 45–60 as preferred.
constexpr Bounds acceptableMoisture{40, 65};
constexpr Bounds preferredMoisture{50, 60};
constexpr Bounds acceptableCarbonNitrogen{20, 40};
constexpr Bounds preferredCarbonNitrogen{25, 30};

/// A material that could be added, and how much of it.
struct ToHand {
    Portion material;  ///< its mass does not matter
    double atLeast = 0;
    std::optional<double> atMost;  ///< kg; no value = as much as it takes
    bool kitchenWaste = false;
};

enum class Aim {
    leastMass,
    fewestMaterials,  ///< and of those ways the one with the least mass
    mostKitchenWaste  ///< and of those ways the one with the least mass
};

struct Balance {
    bool feasible = false;
    std::string why;                ///< in words, when it is not feasible
    std::vector<double> kilograms;  ///< of each material to hand, never negative; when not feasible: of the nearest
    Mixture mixture;                ///< all of it together: the balanced one, else the nearest reachable
};

/// The nearest reachable mixture of an infeasible balance is sought within this many times what is already there,
/// where a material has no limit of its own: adding without end would only creep towards that material's own figures.
constexpr double endlessTimes = 100;

/// What to add to `given` out of `toHand` so that the whole meets the goals, as `aim` prefers.
/// Nothing is rounded, clamped or negative; when there is no way it says so.
Balance balance(std::span<const Portion> given, std::span<const ToHand> toHand, const Goals& goals,
                Aim aim = Aim::leastMass);

}  // namespace midden
