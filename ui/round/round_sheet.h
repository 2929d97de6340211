// SPDX-License-Identifier: GPL-3.0-or-later
// The blank sheet to take to the plot: bins and positions down, rounds across, room to write.
#pragma once

#include <QSizeF>
#include <QString>
#include <vector>

#include "core/store/logbook.h"

class QPagedPaintDevice;

namespace midden::ui {

struct SheetRow {
    QString bin;  ///< empty = the same bin as above
    QString position;
};

/// Everything the sheet says.
struct SheetPlan {
    QString title;
    QString columnHint;  ///< "°C"
    int rounds = 7;      ///< columns to write into: a week
    std::vector<SheetRow> rows;
};
SheetPlan planSheet(const Logbook& logbook);

/// How many pages it takes: at least one.
int sheetPages(const SheetPlan& plan, QSizeF millimetres);
/// Paints the whole sheet; false when the device could not be painted on.
bool paintSheet(QPagedPaintDevice& device, const SheetPlan& plan);

}  // namespace midden::ui
