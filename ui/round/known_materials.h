// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>

#include "core/store/logbook.h"

namespace midden::ui {

/// Names to complete a typed material with: what this batch got before, then the material list.
QStringList knownMaterials(const Logbook& logbook, BatchId batch);

/// What to know before this goes into the bin, in whole sentences; empty when there is nothing. `sources` says who says
/// so.
QString materialCautions(const QString& material, QString* sources);

}  // namespace midden::ui
