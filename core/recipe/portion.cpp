// SPDX-License-Identifier: GPL-3.0-or-later
// How much carbon and nitrogen a portion brings, from what its entry or its material says.
#include "core/recipe/mixture.h"

namespace midden {
namespace {

/// C:N, N and C stand for two figures, not three: carbon keeps to about half of the dry mass while nitrogen and C:N
/// move against each other (grass with little nitrogen is the grass with the high C:N). So the range of C:N is
/// carried as a range of nitrogen at the typical carbon.
std::optional<Estimate> nitrogenOf(const Material& material) {
    if (!material.nitrogenPercent || !material.carbonNitrogen || !material.carbonNitrogen->spreadKnown ||
        material.carbonNitrogen->within.low <= 0) {
        return material.nitrogenPercent;
    }
    const double carbon = material.nitrogenPercent->typical * material.carbonNitrogen->typical;
    const Bounds& ratios = material.carbonNitrogen->within;
    return Estimate{material.nitrogenPercent->typical, {carbon / ratios.high, carbon / ratios.low}, true};
}

std::optional<double> carbonOf(const std::optional<Estimate>& nitrogen, const std::optional<Estimate>& ratio) {
    if (!nitrogen) {
        return std::nullopt;
    }
    if (nitrogen->typical == 0) {
        return 0;  // ash, grit: no nitrogen and no C:N means no carbon
    }
    return ratio ? std::optional{nitrogen->typical * ratio->typical} : std::nullopt;
}

/// The entry's own carbon, nitrogen and C:N: any two give the third, one alone is filled up from the material.
void takeOwnFigures(Portion& portion, const Addition& own, const Material* material) {
    auto nitrogen = own.nitrogenPercent;
    auto carbon = own.carbonPercent;
    const auto ratio = own.carbonNitrogen;
    if (!nitrogen && carbon && ratio && *ratio > 0) {
        nitrogen = *carbon / *ratio;
    }
    if (!nitrogen && (carbon || ratio) && material != nullptr && material->nitrogenPercent) {
        nitrogen = material->nitrogenPercent->typical;
    }
    if (!carbon && nitrogen) {
        const auto listed = material != nullptr ? material->carbonNitrogen : std::nullopt;
        carbon = carbonOf(Estimate::exactly(*nitrogen), ratio ? std::optional{Estimate::exactly(*ratio)} : listed);
    }
    portion.carbonPercent = carbon;
    portion.nitrogenPercent = nitrogen ? std::optional{Estimate::exactly(*nitrogen)} : std::nullopt;
}

}  // namespace

Portion portionOf(const Material& material, double kilograms) {
    return {material.name,
            kilograms,
            material.moisturePercent,
            carbonOf(material.nitrogenPercent, material.carbonNitrogen),
            nitrogenOf(material),
            material.bulkDensity};
}

Portion portionOf(const Addition& addition, const Materials& materials) {
    const Material* material = materials.find(addition);
    Portion portion = material != nullptr ? portionOf(*material, addition.massKilograms) : Portion{};
    portion.material = addition.material;
    portion.kilograms = addition.massKilograms;
    if (addition.moisturePercent) {
        portion.moisturePercent = Estimate::exactly(*addition.moisturePercent);
    }
    if (addition.nitrogenPercent || addition.carbonPercent || addition.carbonNitrogen) {
        takeOwnFigures(portion, addition, material);
    }
    if (addition.volumeLitres && *addition.volumeLitres > 0 && addition.massKilograms > 0) {
        portion.bulkDensity = Estimate::exactly(addition.massKilograms / *addition.volumeLitres * 1'000);
    }
    return portion;
}

}  // namespace midden
