// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/recipe/material.h"

namespace midden {

/// What to know before something goes into the bin.
struct Caution {
    std::string id;
    std::vector<std::string> triggerWords;  ///< words in a material's name that call for it, known material or not
    std::string words;
    std::string source;
    std::string known;                   ///< how the source is known: opened, quoted or practice (no source)
    std::vector<std::string> insteadOf;  ///< ids that its trigger words would wrongly call for as well
};

/// Those that come with the program (resources/cautions.csv).
const std::vector<Caution>& builtInCautions();

/// The cautions for something called `name`, in the table's order: those of the material and those its words call for.
/// One that stands instead of others keeps those away: droppings of a dog are no manure to be used by manure's rules.
std::vector<Caution> cautionsFor(std::string_view name, const Materials& materials = builtInMaterials());

}  // namespace midden
