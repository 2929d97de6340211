// SPDX-License-Identifier: GPL-3.0-or-later
// What goes into a batch as people write it down: "wet grass", "10 kg" or "2 buckets". The Round and the Recipe read it
// alike.
#pragma once

#include <QString>
#include <optional>

#include "core/recipe/material.h"

namespace midden::ui {

/// What the steward's own vessels hold, in litres. Bucket and barrow are common sizes, no source; a kitchen caddy and a
/// refuse sack as Merseyside's waste authority has them (merseysidewda.gov.uk/volume-to-kgs).
struct Measures {
    double bucketLitres = 10;
    double barrowLitres = 85;
    double caddyLitres = 5;
    double sackLitres = 60;
};

class Book;
/// As the book's settings have them.
Measures measuresOf(const Book& book);

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

/// "20 L", "2 buckets", "20": litres. No value: no volume.
std::optional<double> readLitres(const QString& typed, const Measures& measures);

}  // namespace midden::ui
