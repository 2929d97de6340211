// SPDX-License-Identifier: GPL-3.0-or-later
// What comes out at the base, told as reckoned and cautiously, and what mixing leaves of what was known.
#pragma once

#include "core/layers/pile.h"

namespace midden {

/// A layer as it stands at one instant. "At least" and "at most": the hours at the threshold that readings within reach
/// show, and those they do not rule out. Never a verdict.
struct StandingLayer {
    Instant fedFrom;
    Instant fedTo;
    bool raw = true;
    double litres = 0;
    double looseLitres = 0;        ///< as they were thrown in
    std::optional<double> fromCm;  ///< above the floor; no value when the bin's floor area is not known
    std::optional<double> toCm;
    Seconds atLeast;
    Seconds longestRun;
    Seconds atMost;
};

/// What mixing these layers leaves: the least of the raw ones, the most of all. A run never goes on across it.
Credit mixedCredit(std::span<const StandingLayer> layers, Instant at);

/// How far up layers of these litres reach so many litres: whole ones, and a share of the next.
struct Cut {
    std::size_t whole = 0;
    double share = 0;
    double litres = 0;  ///< that are really there
};
Cut cutAt(double litres, std::span<const StandingLayer> lowestFirst);

struct HarvestPart {
    double litres = 0;
    double looseLitres = 0;
    bool raw = true;
    Seconds atLeast;
    Seconds longestRun;
};

/// Of the lowest litres, were layers to sink evenly. No value: nothing raw is in it, or, of a share, so much of it is
/// not raw that the share has every hour.
struct AsReckoned {
    std::optional<Seconds> atLeast;
    std::optional<Seconds> longestRun;
    std::optional<Seconds> halfHad;        ///< half of the litres had at least this
    std::optional<Seconds> nineTenthsHad;  ///< nine tenths had
    double litresWithHold = 0;             ///< litres whose longest run reaches the target's hold
    std::vector<HarvestPart> parts;        ///< lowest first
};

/// Of everything that may be in it, were younger material to slip down. No value: nothing, or nothing raw.
struct Cautiously {
    std::optional<Instant> fedFrom;
    std::optional<Instant> fedTo;
    std::optional<Seconds> atLeast;
    std::optional<Seconds> longestRun;
    Seconds atMost;
};

struct HarvestReckoning {
    Instant at;
    double asked = 0;   ///< litres, as written down
    double litres = 0;  ///< that were there to be taken
    bool moreThanThere = false;
    AsReckoned reckoned;
    Cautiously cautious;
};

struct HarvestTerms {
    Seconds hold;
    double hatchTopCm = 0;
};

/// Takes nothing away; `lowestFirst` are all layers at that instant.
HarvestReckoning harvestOf(double litres, Instant at, std::span<const StandingLayer> lowestFirst,
                           const HarvestTerms& terms, const LayerRules& rules);

}  // namespace midden
