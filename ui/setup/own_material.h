// SPDX-License-Identifier: GPL-3.0-or-later
// A material as it is typed in Setup, and back.
#pragma once

#include <QString>
#include <map>
#include <optional>

#include "core/recipe/material.h"

namespace midden::ui {

/// The form's fields as typed. A figure is "80" or, with its usual range, "80 (48–150)".
struct MaterialDraft {
    QString name;
    QString moisture;
    QString carbonNitrogen;
    QString nitrogen;
    QString bulk;
    bool raw = true;
    bool kitchen = false;
    QString source;
};
enum class MaterialField { name, moisture, carbonNitrogen, nitrogen, bulk };

struct MaterialReading {
    std::optional<Material> material;  ///< none while something is missing or wrong
    std::map<MaterialField, QString> wrong;
};

MaterialDraft draftOf(const Material& material);
/// `changed` is the material whose figures are being changed; none = a new one. A new name must not be in `all` yet.
MaterialReading readMaterial(const MaterialDraft& draft, const std::optional<Material>& changed, const Materials& all);

/// "80 (48–150)"; empty when there is none.
QString typedFigure(const std::optional<Estimate>& figure);
/// Everything the list knows of a material, as rich text: each figure with the word for how it is known.
QString materialPage(const Material& material, bool changedFromPrinted);
/// Where its figures are from and how they were checked, as rich text.
QString materialSource(const Material& material);

}  // namespace midden::ui
