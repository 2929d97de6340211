// SPDX-License-Identifier: GPL-3.0-or-later
// The lines of our own tables (materials, cautions): fields parted by semicolons, no quoting.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "core/recipe/material.h"

namespace midden {

/// The lines without their line ends. The last one may lack its own.
std::vector<std::string_view> linesOf(std::string_view text);
/// The fields between the separators, without spaces around them. An empty text has no fields.
std::vector<std::string_view> fieldsOf(std::string_view line, char separator);
/// Reads one line of the table, or says what is wrong with it.
Result<Material> materialOf(std::span<const std::string_view> fields);

}  // namespace midden
