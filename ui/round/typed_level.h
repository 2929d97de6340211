// SPDX-License-Identifier: GPL-3.0-or-later
// How high the surface of a fed bin stands, as people measure it: from the rim down.
#pragma once

#include <QString>

#include "core/quantities/result.h"
#include "core/records/entries.h"

namespace midden::ui {

/// "Below the rim, cm", or, where the bin's height is not known, "Surface above the floor, cm".
QString levelLabel(const std::optional<Bin>& bin);

/// What was typed, in cm above the floor; nothing typed: no value. Refused: no number, or not within the bin.
Result<std::optional<double>> readLevel(const QString& typed, const std::optional<Bin>& bin);

/// That level, as an entry.
Observation levelEntry(BatchId batch, Moment when, double centimetres);

}  // namespace midden::ui
