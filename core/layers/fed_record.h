// SPDX-License-Identifier: GPL-3.0-or-later
// What the layers of a fed bin are reckoned from.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/layers/feed.h"
#include "core/records/batch_record.h"

namespace midden {

/// The surface was measured.
struct Level {
    Instant at;
    double centimetres = 0;  ///< above the floor

    auto operator<=>(const Level&) const = default;
};

/// Turned or forked.
struct Mixing {
    Instant at;
    bool forked = false;
    std::optional<double> depthCm;  ///< from the surface; of a turning, or where none is given, everything

    auto operator<=>(const Mixing&) const = default;
};

/// Taken out at the base.
struct Drawing {
    Instant at;
    double litres = 0;  ///< as measured

    auto operator<=>(const Drawing&) const = default;
};

/// One position and what was read there.
struct HeightTrack {
    std::optional<double> heightCm;   ///< above the floor; not known: it shows nothing of any layer
    std::span<const Sample> samples;  ///< in time order, at most one an instant; they live elsewhere
};

/// Everything that is known of a fed bin, entries of a kind in any order.
struct FedRecord {
    std::optional<double> binLitres;
    std::optional<double> binHeightCm;  ///< inside
    double hatchTopCm = 0;              ///< the upper edge of the opening at the base; 0: none
    Celsius threshold;
    Seconds hold;  ///< how long the target asks for
    std::vector<FedAddition> additions;
    std::vector<Level> levels;
    std::vector<Mixing> mixings;
    std::vector<Drawing> drawings;
    std::vector<HeightTrack> positions;
    Instant asOf;  ///< usually of the last entry of any kind; what is later does not count

    /// 10 A: how many litres lie in a centimetre of height. No value when volume or height are not known.
    std::optional<double> litresPerCm() const {
        const bool known = binLitres && binHeightCm && *binLitres > 0 && *binHeightCm > 0;
        return known ? std::optional{*binLitres / *binHeightCm} : std::nullopt;
    }
};

}  // namespace midden
