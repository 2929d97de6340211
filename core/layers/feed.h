// SPDX-License-Identifier: GPL-3.0-or-later
// What is put on top of a fed bin.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/layers/rules.h"
#include "core/records/entries.h"

namespace midden {

/// Where the litres of an addition are from.
enum class LitresFrom : std::uint8_t {
    volume = 0,   ///< measured
    density = 1,  ///< its mass over the bulk density of its material
    assumed = 2   ///< its mass over 0.40 kg/L: kitchen scraps as thrown, 0.24 to 0.46 (EPA 2016, snippet)
};

struct LooseLitres {
    double litres = 0;
    LitresFrom from = LitresFrom::assumed;
};

/// The litres of an addition as it is thrown in. `bulkDensity` of its material in kg/m³, where it is known.
LooseLitres looseLitres(const Addition& addition, std::optional<double> bulkDensity);

/// One addition, as much of it as layers are made of.
struct FedAddition {
    Instant at;
    double litres = 0;  ///< loose, as thrown in
    bool raw = true;

    auto operator<=>(const FedAddition&) const = default;
};

/// Additions that lie on top together.
struct Feed {
    Instant at;  ///< of the last of them
    double litres = 0;
    bool raw = false;  ///< whether anything in it is
};

/// Feeds in time order, of additions in any order. An addition without litres is none.
std::vector<Feed> feedsOf(std::vector<FedAddition> additions, const LayerRules& rules);

/// The fewest equal slices of a feed that are thin enough. `litresPerCm` is 10 A; not known: one.
std::size_t slicesOf(const Feed& feed, std::optional<double> litresPerCm, const LayerRules& rules);

}  // namespace midden
