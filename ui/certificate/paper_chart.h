// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>

#include "core/quantities/zone.h"
#include "core/review/batch_review.h"

class QPainter;

namespace midden::ui {

/// What the printed chart is drawn from. Its windows are those of the review's first threshold.
struct PaperChart {
    const BatchRecord& record;
    const BatchReview& review;
    TimeZone zone = TimeZone::utc();
};

/// The trace of every position over outside air, with threshold, windows, gaps, stalls, additions and turnings.
/// Opaque, in page units, the same on every computer: nothing of the desktop's palette or locale is in it.
void drawPaperChart(QPainter& painter, const QRectF& target, const PaperChart& chart);

}  // namespace midden::ui
