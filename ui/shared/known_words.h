// SPDX-License-Identifier: GPL-3.0-or-later
// How a material's figures are known, in words a gardener uses.
#pragma once

#include <QString>
#include <span>

#include "core/recipe/material.h"

namespace midden::ui {

/// "measured food table", "handbook", "our estimate": what most of its figures rest on.
QString knownWord(const Material& material);

enum class MaterialFigure { nitrogen, carbonNitrogen, moisture, bulk };
/// The same for one figure; empty where there is none.
QString knownWord(const Material& material, MaterialFigure figure);

/// "Figures: carrots, measured food table; straw, handbook." Each material once; empty without any.
QString knownInWords(std::span<const Material* const> materials);
/// Where each of them has its figures and how they were checked, a line each.
QString sourcesInWords(std::span<const Material* const> materials);

}  // namespace midden::ui
