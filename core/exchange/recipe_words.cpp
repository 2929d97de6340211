// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "core/exchange/recipe_file.h"
#include "core/quantities/utf8.h"
#include "core/recipe/balance_words.h"

namespace midden {
namespace {

using Json = nlohmann::ordered_json;

Json orNull(const std::optional<double>& value) {
    return value ? Json(*value) : Json(nullptr);
}

std::string within(const std::optional<Bounds>& range) {
    return range ? fmt::format(" ({}–{})", oneDecimal(range->low), oneDecimal(range->high)) : "";
}

}  // namespace

std::string recipeJson(const SolvedRecipe& recipe) {
    Json materials = Json::array();
    for (const RecipeRow& row : recipe.rows) {
        materials.push_back({{"material", row.portion.material}, {"mass_kg", row.portion.kilograms}});
    }
    const Json all{{"format", "middenbook.recipe/1"},
                   {"feasible", recipe.feasible},
                   {"why", recipe.why},
                   {"materials", materials},
                   {"mixture",
                    {{"wet_mass_kg", recipe.mixture.wetMassKilograms},
                     {"moisture_percent", orNull(recipe.mixture.moisturePercent)},
                     {"carbon_nitrogen", orNull(recipe.mixture.carbonNitrogen)}}}};
    return all.dump(2) + "\n";
}

std::string recipeText(const SolvedRecipe& recipe) {
    std::size_t width = 8;
    for (const RecipeRow& row : recipe.rows) {
        width = std::max(width, row.portion.material.size());
    }
    std::string text = recipe.feasible ? "" : printable(recipe.why) + "\n\n";
    for (const RecipeRow& row : recipe.rows) {
        text += fmt::format("{:<{}}  {:>9.3f} kg{}\n", printable(row.portion.material), width, row.portion.kilograms,
                            row.massUnknown ? recipe.feasible ? "  to add" : "  to come nearest" : "");
    }
    const Mixture& mixture = recipe.mixture;
    text += fmt::format("{:<{}}  {:>9.3f} kg\n", "together", width, mixture.wetMassKilograms);
    if (mixture.moisturePercent) {
        text += fmt::format("moisture {} %{}\n", oneDecimal(*mixture.moisturePercent), within(mixture.moistureRange));
    }
    if (mixture.carbonNitrogen) {
        text += fmt::format("C:N {}{}\n", oneDecimal(*mixture.carbonNitrogen), within(mixture.carbonNitrogenRange));
    }
    return text;
}

}  // namespace midden
