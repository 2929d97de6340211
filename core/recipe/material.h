// SPDX-License-Identifier: GPL-3.0-or-later
// What goes into a bin, as data: resources/materials.csv and what a logbook adds to it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/quantities/result.h"
#include "core/recipe/estimate.h"
#include "core/records/entries.h"

namespace midden {

/// One material with its usual figures. A figure nobody published is missing, never guessed.
struct Material {
    std::string id;
    std::string name;
    std::vector<std::string> aliases;
    std::string group;                        ///< kitchen, garden, brown, manure, mineral, finished, water
    std::optional<Estimate> nitrogenPercent;  ///< of the dry mass
    std::optional<Estimate> carbonNitrogen;   ///< C:N by mass; none with nitrogen 0 means no carbon either
    std::optional<Estimate> moisturePercent;  ///< of the wet mass
    std::optional<Estimate> bulkDensity;      ///< kg/m³ as it is thrown in
    bool raw = true;                          ///< no: clean bulking agent, finished heap, water
    std::vector<std::string> cautions;        ///< ids in resources/cautions.csv
    std::string source;                       ///< the document its figures are from
    std::string checked;                      ///< how they were checked against it, in words
    bool ofTheGroup = false;                  ///< added or changed by the steward, kept in the logbook

    bool isKitchenWaste() const { return group == "kitchen"; }
    bool isWater() const { return group == "water"; }

    bool operator==(const Material&) const = default;
};

/// A list of materials that can be looked up by name.
class Materials {
  public:
    /// Reads the table's own text: a header line, then one material a line, its fields parted by semicolons,
    /// aliases and cautions by |. No quoting: a field cannot hold a semicolon. Refuses with the line's number.
    static Result<Materials> parse(std::string_view table);

    const std::vector<Material>& all() const { return all_; }
    /// By id, name or alias, not minding case, spaces or a plural s. Null when unknown.
    const Material* find(std::string_view name) const;
    /// This list with the steward's own materials in the place of those of the same id, or after the others.
    Materials with(const Materials& own) const;

  private:
    std::vector<Material> all_;
};

/// The materials that come with the program.
const Materials& builtInMaterials();

/// The table's text for these materials: what parse reads.
std::string tableOf(const std::vector<Material>& materials);

/// Is it raw: by its own mark, else its material's; an unknown material is raw.
bool isRaw(const Addition& addition, const Materials& materials = builtInMaterials());

}  // namespace midden
