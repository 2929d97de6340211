// SPDX-License-Identifier: GPL-3.0-or-later
// A recipe file: what is accepted is solved for goals the first two bytes choose, and its masses are never negative.
#include <cmath>

#include "core/exchange/recipe_file.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

using fuzz::expect;

Goals goalsFrom(std::uint8_t moisture, std::uint8_t quotient) {
    Goals goals;
    if (moisture % 2 == 1) {
        goals.moisturePercent = Bounds{moisture / 2.56, moisture / 2.56 + moisture % 4};
    }
    if (quotient % 2 == 1) {
        goals.carbonNitrogen = Bounds{quotient / 4.0, quotient / 4.0 + quotient % 8};
    }
    return goals;
}

void solve(std::vector<RecipeRow> rows, const Goals& goals) {
    const auto solved = solveRecipe(std::move(rows), goals);
    for (const auto& row : solved.rows) {
        expect(std::isfinite(row.portion.kilograms) && row.portion.kilograms >= 0, "a mass is a number from 0 up");
    }
    expect(solved.feasible || !solved.why.empty(), "no way is said in words");
    expect(!recipeJson(solved).empty() && !recipeText(solved).empty(), "a recipe can be told");
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    using namespace midden;
    fuzz::Input input{data, size};
    const auto moisture = input.takeByte();
    const auto goals = goalsFrom(moisture, input.takeByte());
    const fuzz::MemoryFile file{input.text()};
    auto rows = readRecipe(file.path());
    if (!rows) {
        fuzz::expect(!rows.error().problem.wrong.empty(), "a refusal says what is wrong");
    } else if (rows->size() < 40) {
        solve(std::move(*rows), goals);
    }
    return 0;
}
