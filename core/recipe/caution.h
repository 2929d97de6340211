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
};

/// Those that come with the program (resources/cautions.csv).
const std::vector<Caution>& builtInCautions();

/// The cautions for something called `name`, in the table's order: those of the material and those its words call for.
std::vector<Caution> cautionsFor(std::string_view name, const Materials& materials = builtInMaterials());

}  // namespace midden
