// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QByteArray>

#include "core/quantities/time.h"

namespace midden::ui {

/// Makes a PDF written by Qt the same whenever and wherever it is written: its dates of creation and modification
/// become `issued`, the file's identifiers are taken from `digest` (hexadecimal), and the cross-reference table is kept
/// true.
QByteArray stamped(const QByteArray& pdf, Instant issued, const QByteArray& digest);

}  // namespace midden::ui
