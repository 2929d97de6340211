// SPDX-License-Identifier: GPL-3.0-or-later
// What the recipe screen says, without a pixel of it.
#pragma once

#include <QString>
#include <QStringList>
#include <optional>
#include <span>
#include <vector>

#include "core/recipe/balance.h"
#include "ui/shared/typed_addition.h"

namespace midden::ui {

/// "C:N 24.3 is below 25–30. It may lie anywhere from 15 to 33: the materials vary that much."
QString figureInWords(const QString& name, std::optional<double> figure, const std::optional<Bounds>& range,
                      const Bounds& preferred);

/// The materials whose figures or ranges nobody knows, and what follows from it; empty when all are known.
QString doubtsInWords(const Mixture& mixture);

/// Does it fit, and is there enough of it to keep warm? Empty without a bin volume or without bulk densities.
QString roomInWords(const Mixture& mixture, std::optional<double> binLitres);

/// What the air in it is worked out from, and whose figures these are.
QString airSourceInWords();

/// A mend as it was found: into the preferred bands if they can be reached, else into the acceptable ones.
struct Mend {
    Balance balance;
    std::vector<ToHand> toHand;
    QString words;
    bool reached = false;
};
Mend mendFor(std::span<const Portion> given, std::vector<ToHand> toHand, Aim aim);

/// The cautions for these materials, each once, with the materials it is about and its source as a tooltip.
struct CautionLine {
    QString words;
    QString source;
};
std::vector<CautionLine> cautionLines(const QStringList& names, const Materials& materials);

}  // namespace midden::ui
