// SPDX-License-Identifier: GPL-3.0-or-later
// What goes into a bin, as data: resources/materials.csv and what a logbook adds to it.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/quantities/result.h"
#include "core/quantities/time.h"
#include "core/recipe/estimate.h"
#include "core/records/entries.h"

namespace midden {

/// How a figure is known. Nothing that ships is known from memory alone.
enum class Known : std::uint8_t {
    opened,    ///< read in the source itself
    quoted,    ///< read where another text quotes the source
    derived,   ///< worked out from figures that were read
    estimate,  ///< our own estimate; its range rests on figures that were read
    memory,    ///< from memory, not read anywhere
    own        ///< the steward's own
};

/// How each figure of a material is known; no value where there is no figure.
struct FiguresKnown {
    std::optional<Known> nitrogen;
    std::optional<Known> carbonNitrogen;
    std::optional<Known> moisture;
    std::optional<Known> bulk;

    bool operator==(const FiguresKnown&) const = default;
};

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
    FiguresKnown known;
    /// What kind of source it is: food-table, handbook, manual, mixture, estimate, definition, none; own when the
    /// steward's. The screens have a gardener's word for each.
    std::string basis = "own";
    std::string carbonNote;   ///< why carbon lies outside 35–52 % of the dry mass; empty where it does not
    bool ofTheGroup = false;  ///< added or changed by the steward, kept in the logbook

    bool isKitchenWaste() const { return group == "kitchen"; }
    bool isWater() const { return group == "water"; }

    bool operator==(const Material&) const = default;
};

/// A list of materials that can be looked up by name.
class Materials {
  public:
    /// Reads the table's own text: a header line, then one material a line, its fields parted by semicolons,
    /// aliases and cautions by |. No quoting: a field cannot hold a semicolon. Refuses with the line's number.
    /// A line has 23 fields, or the first 20 of them: then its figures are the steward's own.
    static Result<Materials> parse(std::string_view table);

    const std::vector<Material>& all() const { return all_; }
    /// By id, name or alias, not minding case, spaces or whether one or many are meant. The steward's own come first,
    /// so that a name they gave keeps its meaning when the list that ships grows. Null when unknown.
    const Material* find(std::string_view name) const;
    /// The material of an entry: of the earlier list for what was put in before it was replaced, see withEarlier.
    const Material* find(const Addition& addition) const;
    /// This list with the steward's own materials in the place of those of the same id, or after the others.
    Materials with(const Materials& own) const;
    /// This list, but stored entries from before `since` are read with the `earlier` one, so that what a book says of
    /// them stays what it said.
    Materials withEarlier(const Materials& earlier, Instant since) const;

  private:
    std::vector<Material> all_;
    std::shared_ptr<const Materials> earlier_;
    Instant since_;
};

/// The materials that come with the program.
const Materials& builtInMaterials();
/// The list that came with it before: resources/materials-before.csv. It serves entries that were written with it.
const Materials& earlierMaterials();

/// The table's text for these materials: what parse reads.
std::string tableOf(const std::vector<Material>& materials);

/// Is it raw: by its own mark, else its material's; an unknown material is raw.
bool isRaw(const Addition& addition, const Materials& materials = builtInMaterials());

}  // namespace midden
