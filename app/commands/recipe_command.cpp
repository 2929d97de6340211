// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <memory>

#include "app/commands/commands.h"
#include "app/plain_output.h"
#include "core/exchange/csv/cells.h"
#include "core/exchange/recipe_file.h"

namespace midden::app {

namespace {

struct RecipeOptions {
    std::string file;
    std::string moisture;
    std::string carbonNitrogen;
    bool json = false;
};

std::optional<Bounds> goalOf(std::string_view option, const std::string& typed, const NumberRange& range) {
    if (typed.empty()) {
        return std::nullopt;
    }
    const auto number = parseOptional(typed, range);
    if (!number || !*number) {
        throw WrongUsage{fmt::format("{}: \"{}\" is not {}", option, typed, range.words)};
    }
    return Bounds{**number, **number};
}

ExitStatus solve(const RecipeOptions& options) {
    const Goals goals{goalOf("--moisture", options.moisture, {0, 100, "a percentage from 0 to 100"}),
                      goalOf("--carbon-nitrogen", options.carbonNitrogen, {0.1, 10'000, "a ratio from 0.1 to 10000"})};
    const auto rows = readRecipe(options.file);
    if (!rows) {
        throw BadInput{rows.error().sentence()};
    }
    const bool unknown = std::ranges::any_of(*rows, &RecipeRow::massUnknown);
    if (unknown && !goals.moisturePercent && !goals.carbonNitrogen) {
        throw WrongUsage{
            "A mass is left empty: say with --moisture, --carbon-nitrogen or both what it is to bring about."};
    }
    const auto recipe = solveRecipe(*rows, goals);
    if (options.json) {
        writeForPrograms(std::cout, recipeJson(recipe));
    } else {
        std::cout << recipeText(recipe);
    }
    return recipe.feasible ? ExitStatus::done : ExitStatus::no;
}

}  // namespace

void addRecipeCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("recipe", "Work out a mixture, or the masses that balance it");
    auto options = std::make_shared<RecipeOptions>();
    command->add_option("FILE.csv", options->file, "Materials and masses; an empty mass is worked out")->required();
    command->add_option("--moisture", options->moisture, "The moisture to reach, % of the wet mass")
        ->option_text("PERCENT");
    command->add_option("--carbon-nitrogen", options->carbonNitrogen, "The C:N to reach")->option_text("RATIO");
    command->add_flag("--json", options->json, "Write middenbook.recipe/1 for scripts");
    command->callback([options, &chosen] { chosen = [options] { return solve(*options); }; });
}

}  // namespace midden::app
