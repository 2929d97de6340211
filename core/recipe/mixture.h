// SPDX-License-Identifier: GPL-3.0-or-later
// What several materials make together.
//
// The handbook equations (Cornell, "Moisture content" and "C/N ratio", T. Richard and N. Trautmann,
// compost.css.cornell.edu/calc/cn_ratio.html): with wet masses Q, moistures M (% of wet mass), carbon C and nitrogen N
// (% of dry mass), moisture = ΣQM / ΣQ and C:N = ΣQC(100−M) / ΣQN(100−M). Averaging the ratios themselves is wrong.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/quantities/time.h"
#include "core/recipe/estimate.h"
#include "core/recipe/material.h"

namespace midden {

/// So much of one material, with whatever is known of it.
struct Portion {
    std::string material;
    double kilograms = 0;
    std::optional<Estimate> moisturePercent;  ///< of the wet mass
    std::optional<double> carbonPercent;      ///< of the dry mass
    std::optional<Estimate> nitrogenPercent;  ///< of the dry mass
    std::optional<Estimate> bulkDensity;      ///< kg/m³

    /// Nothing but water: no dry mass, so nothing to ask about carbon, and it takes room in the pores only.
    bool isWater() const { return moisturePercent && moisturePercent->within.low >= 100; }
};

/// What several materials make together. A range answers "how sure": it is where the figure can lie when every
/// material lies anywhere in its own usual range.
struct Mixture {
    double wetMassKilograms = 0;
    std::optional<double> moisturePercent;  ///< of the wet mass; no value when a material's moisture is unknown
    std::optional<double> carbonNitrogen;   ///< by mass; no value without nitrogen, or when a material's is unknown
    std::optional<Bounds> moistureRange;
    std::optional<Bounds> carbonNitrogenRange;
    std::optional<double> volumeLitres;         ///< of the materials side by side; the real heap settles below it
    std::optional<double> bulkDensity;          ///< kg/m³, from that volume
    std::optional<double> freeAirSpacePercent;  ///< of the volume, an estimate: see freeAirSpacePercent()
    std::vector<std::string> withoutFigures;    ///< materials whose moisture, carbon or nitrogen nobody gave
    std::vector<std::string> withoutSpread;     ///< materials whose usual range nobody gave; taken as exact
};

/// Are its moisture, carbon and nitrogen all known?
bool hasAllFigures(const Portion& portion);

/// So much of a listed material.
Portion portionOf(const Material& material, double kilograms);
/// What an addition says of itself wins over its material's entry; what neither says stays unknown.
Portion portionOf(const Addition& addition, const Materials& materials = builtInMaterials());

/// No portions: an empty mixture of 0 kg.
Mixture mixtureOf(std::span<const Portion> portions);
/// What the additions of a batch make together as they went in (what has rotted away since is not taken off).
/// No value without additions.
std::optional<Mixture> mixtureOf(std::span<const Addition> additions, const Materials& materials = builtInMaterials());

/// The batch's mixture from one addition on.
struct MixtureSince {
    Instant since;
    Mixture mixture;
};
/// One entry for each instant something was added, in time order. `additions` are in time order.
std::vector<MixtureSince> runningMixture(std::span<const Addition> additions,
                                         const Materials& materials = builtInMaterials());

/// Air in the pores as a percentage of the volume: 100 − BD·(m + (1−m)/Gs) with 1/Gs = VS/1.0 + (1−VS)/2.5 and BD in
/// kg/L: what is left of a litre when water at 1 kg/L and solids have taken their room. The densities are our own
/// choice: 2.5 for what does not burn, as rock, and 1.0 for what does, the cautious one: a denser estimate leaves more
/// air. VS, the part of the dry mass that burns, is taken as 1.8 times the carbon (Adams et al. 1951, Cornell,
/// compost.css.cornell.edu/calc/carbon.html). No value when the result is below 0: then the volume cannot be right.
std::optional<double> freeAirSpacePercent(double bulkDensity, double moisturePercent, double volatileFraction);

}  // namespace midden
