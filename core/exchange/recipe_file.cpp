// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/recipe_file.h"

#include <array>

#include "core/exchange/plan/row_reader.h"

namespace midden {
namespace {

enum Column : std::size_t { material, massKg, moisture, carbonNitrogen, nitrogen };
constexpr std::array<ColumnSpec, 5> specs{
    {{"material", true}, {"mass_kg", true}, {"moisture_percent"}, {"carbon_nitrogen"}, {"nitrogen_percent"}}};

constexpr NumberRange mass{0, 1'000'000, "a mass in kg from 0 to a million, or nothing where it is to be found"};
constexpr NumberRange ratio{0, 10'000, "a carbon to nitrogen ratio from 0 to 10000"};

/// The first figure the row lacks; none when it has all it needs.
std::optional<std::string_view> missingColumn(const Portion& portion) {
    if (!portion.moisturePercent) {
        return specs[moisture].name;
    }
    if (hasAllFigures(portion)) {
        return std::nullopt;
    }
    return portion.nitrogenPercent ? specs[carbonNitrogen].name : specs[nitrogen].name;
}

void readRow(RowReader& row, RecipeRow& into, const Materials& materials) {
    Addition written;
    std::optional<double> kilograms;
    row.name(material, written.material, "what it is");
    row.number(massKg, kilograms, mass);
    row.number(moisture, written.moisturePercent, percentage);
    row.number(carbonNitrogen, written.carbonNitrogen, ratio);
    row.number(nitrogen, written.nitrogenPercent, percentage);
    written.massKilograms = kilograms.value_or(0);
    into.massUnknown = !kilograms;
    into.portion = portionOf(written, materials);
    if (const auto missing = missingColumn(into.portion)) {
        row.refuse({std::string{*missing} +
                        ": nothing is written there, and the list of materials does not know it for \"" +
                        written.material + "\"",
                    "a figure, or a material of the list"});
    }
}

}  // namespace

FileResult<std::vector<RecipeRow>> readRecipe(const std::filesystem::path& file, const Materials& materials) {
    auto table = CsvTable::open(file, specs);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    const auto lined =
        readRows<RecipeRow>(*table, specs, [&](RowReader& row, RecipeRow& into) { readRow(row, into, materials); });
    if (!lined) {
        return tl::unexpected{lined.error()};
    }
    std::vector<RecipeRow> rows;
    rows.reserve(lined->size());
    for (const auto& one : *lined) {
        rows.push_back(one.row);
    }
    return rows;
}

SolvedRecipe solveRecipe(std::vector<RecipeRow> rows, const Goals& goals) {
    std::vector<Portion> given;
    std::vector<ToHand> toHand;
    for (const RecipeRow& row : rows) {
        if (row.massUnknown) {
            toHand.push_back({row.portion, 0, std::nullopt, false});
        } else {
            given.push_back(row.portion);
        }
    }
    if (!goals.moisturePercent && !goals.carbonNitrogen) {
        return {std::move(rows), true, {}, mixtureOf(given)};
    }
    const Balance found = balance(given, toHand, goals);
    auto next = found.kilograms.begin();
    for (RecipeRow& row : rows) {
        if (row.massUnknown) {
            row.portion.kilograms = *next++;
        }
    }
    return {std::move(rows), found.feasible, found.why, found.mixture};
}

}  // namespace midden
