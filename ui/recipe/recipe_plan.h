// SPDX-License-Identifier: GPL-3.0-or-later
// What the recipe screen says, without a pixel of it.
#pragma once

#include <QString>
#include <QStringList>
#include <optional>
#include <span>
#include <vector>

#include "core/recipe/balance.h"

namespace midden::ui {

/// What the steward's own bucket and barrow hold, in litres.
struct Measures {
    double bucketLitres = 10;
    double barrowLitres = 85;
};

/// One line as typed: "wet grass", "10 kg" or "2 buckets".
struct TypedLine {
    QString material;
    QString amount;
};

/// What a typed line means.
struct ReadLine {
    std::optional<Addition> addition;  ///< none while something is missing or wrong
    QString remark;                    ///< what is wrong, or how a volume became a mass; empty = nothing to say
    bool wrong = false;
};
ReadLine readLine(const TypedLine& line, const Measures& measures, const Materials& materials);

/// "C:N 24.3 is below 25–30. It may lie anywhere from 15 to 33: the materials vary that much."
QString figureInWords(const QString& name, std::optional<double> figure, const std::optional<Bounds>& range,
                      const Bounds& preferred);

/// The materials whose figures or ranges nobody knows, and what follows from it; empty when all are known.
QString doubtsInWords(const Mixture& mixture);

/// Does it fit, and is there enough of it to keep warm? Empty without a bin volume or without bulk densities.
QString roomInWords(const Mixture& mixture, std::optional<double> binLitres);

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
