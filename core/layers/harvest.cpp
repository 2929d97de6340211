// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/layers/harvest.h"

#include <algorithm>

namespace midden {

namespace {

/// Sums of litres are not exact.
constexpr double hair = 1e-9;

template <class Value>
void lower(std::optional<Value>& least, Value value) {
    least = least ? std::min(*least, value) : value;
}

template <class Value>
void raise(std::optional<Value>& most, Value value) {
    most = most ? std::max(*most, value) : value;
}

/// The most hours that parts holding this share of all had at least. What is not raw has every hour.
std::optional<Seconds> hadBy(double share, std::vector<HarvestPart> parts, double litres) {
    std::sort(parts.begin(), parts.end(), [](const HarvestPart& a, const HarvestPart& b) {
        return a.raw != b.raw ? b.raw : a.atLeast > b.atLeast;
    });
    double sum = 0;
    for (const auto& part : parts) {
        sum += part.litres;
        if (sum >= share * litres * (1 - hair)) {
            return part.raw ? std::optional{part.atLeast} : std::nullopt;
        }
    }
    return std::nullopt;
}

AsReckoned asReckoned(const Cut& cut, std::span<const StandingLayer> layers, Seconds hold) {
    AsReckoned taken;
    for (std::size_t i = 0; i < layers.size() && i <= cut.whole; ++i) {
        const double share = i < cut.whole ? 1 : cut.share;
        if (share <= 0) {
            break;
        }
        const auto& layer = layers[i];
        const HarvestPart part{share * layer.litres, share * layer.looseLitres, layer.raw, layer.atLeast,
                               layer.longestRun};
        if (part.raw) {
            lower(taken.atLeast, part.atLeast);
            lower(taken.longestRun, part.longestRun);
        }
        if (!part.raw || part.longestRun >= hold) {
            taken.litresWithHold += part.litres;
        }
        taken.parts.push_back(part);
    }
    taken.halfHad = hadBy(0.5, taken.parts, cut.litres);
    taken.nineTenthsHad = hadBy(0.9, taken.parts, cut.litres);
    return taken;
}

void mayBeIn(Cautiously& harvest, const StandingLayer& layer) {
    lower(harvest.fedFrom, layer.fedFrom);
    raise(harvest.fedTo, layer.fedTo);
    if (layer.raw) {
        lower(harvest.atLeast, layer.atLeast);
        lower(harvest.longestRun, layer.longestRun);
    }
    harvest.atMost = std::max(harvest.atMost, layer.atMost);
}

Cautiously cautiously(std::size_t touched, Instant at, std::span<const StandingLayer> layers, double hatchTopCm) {
    Cautiously harvest;
    Seconds youngest;
    for (std::size_t i = 0; i < touched; ++i) {
        const auto age = at - layers[i].fedTo;
        youngest = i == 0 ? age : std::min(youngest, age);
    }
    for (std::size_t i = 0; i < layers.size(); ++i) {
        const auto& layer = layers[i];
        const bool atHatch = layer.fromCm && *layer.fromCm < hatchTopCm;
        const auto age = at - layer.fedFrom;
        const bool mayHaveSlipped = touched > 0 && age + age >= youngest;
        if (i < touched || atHatch || mayHaveSlipped) {
            mayBeIn(harvest, layer);
        }
    }
    return harvest;
}

}  // namespace

Credit mixedCredit(std::span<const StandingLayer> layers, Instant at) {
    const bool someRaw = std::any_of(layers.begin(), layers.end(), [](const auto& layer) { return layer.raw; });
    std::optional<Seconds> atLeast;
    std::optional<Seconds> longestRun;
    Seconds atMost;
    for (const auto& layer : layers) {
        if (layer.raw || !someRaw) {
            lower(atLeast, layer.atLeast);
            lower(longestRun, layer.longestRun);
        }
        atMost = std::max(atMost, layer.atMost);
    }
    return {at, atLeast.value_or(Seconds{}), longestRun.value_or(Seconds{}), atMost};
}

Cut cutAt(double litres, std::span<const StandingLayer> lowestFirst) {
    Cut cut;
    double left = litres;
    for (const auto& layer : lowestFirst) {
        if (left <= hair * litres) {
            break;
        }
        if (left < layer.litres * (1 - hair)) {
            cut.share = left / layer.litres;
            cut.litres += left;
            break;
        }
        ++cut.whole;
        cut.litres += layer.litres;
        left -= layer.litres;
    }
    return cut;
}

HarvestReckoning harvestOf(double litres, Instant at, std::span<const StandingLayer> lowestFirst,
                           const HarvestTerms& terms, const LayerRules& rules) {
    const auto cut = cutAt(litres, lowestFirst);
    const auto slipped = cutAt(litres * rules.slippedVolume, lowestFirst);
    const auto touched = slipped.whole + (slipped.share > 0 ? 1 : 0);
    return {at,
            litres,
            cut.litres,
            cut.litres < litres * (1 - hair),
            asReckoned(cut, lowestFirst, terms.hold),
            cautiously(touched, at, lowestFirst, terms.hatchTopCm)};
}

}  // namespace midden
