// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPainterPath>
#include <QPen>

#include "ui/shared/palette.h"

namespace midden::ui {

/// The line of a position; beyond the fourth colour the dashes change, so that no two of sixteen look alike.
QPen tracePen(const Palette& palette, std::size_t look);
/// The mark of a reading, around the origin.
QPainterPath traceMark(const Palette& palette, std::size_t look);

}  // namespace midden::ui
