// SPDX-License-Identifier: GPL-3.0-or-later
// A recipe as a file: what goes in, and what is still to be weighed out.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/exchange/csv/refusal.h"
#include "core/recipe/balance.h"

namespace midden {

/// One row: a material and its mass, or no mass where the recipe is to find it.
struct RecipeRow {
    Portion portion;
    bool massUnknown = false;
};

/// `material,mass_kg` + optional `moisture_percent,carbon_nitrogen,nitrogen_percent`. An empty figure is that of the
/// list of materials; a material that is not in it needs all three, but nothing more than its moisture when that is
/// 100 (water), and no C:N when its nitrogen is 0 (it brings no carbon then).
FileResult<std::vector<RecipeRow>> readRecipe(const std::filesystem::path& file,
                                              const Materials& materials = builtInMaterials());

/// A recipe with every mass filled in.
struct SolvedRecipe {
    std::vector<RecipeRow> rows;  ///< as in the file; when not feasible: the nearest
    bool feasible = true;
    std::string why;
    Mixture mixture;
};

/// Fills in the unknown masses so that the whole meets the goals, with the least mass. Without goals and without
/// unknown masses it is the mixture as it stands.
SolvedRecipe solveRecipe(std::vector<RecipeRow> rows, const Goals& goals);

/// middenbook.recipe/1
std::string recipeJson(const SolvedRecipe& recipe);
/// The same for people, as a small table and a sentence.
std::string recipeText(const SolvedRecipe& recipe);

}  // namespace midden
