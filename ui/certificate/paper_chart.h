// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>
#include <memory>
#include <vector>

#include "core/quantities/zone.h"
#include "core/review/batch_review.h"
#include "ui/chart/decimation.h"

class QPainter;

namespace midden::ui {

/// One a track, then outside air: made once for a chart that is drawn often. Keeps a view of the record.
using PaperPyramids = std::shared_ptr<const std::vector<MinMaxPyramid>>;
PaperPyramids pyramidsOf(const BatchRecord& record);

/// What the printed chart is drawn from. Its windows are those of the review's first threshold.
struct PaperChart {
    const BatchRecord& record;
    const BatchReview& review;
    TimeZone zone = TimeZone::utc();
    PaperPyramids pyramids = pyramidsOf(record);
};

/// The trace of every position over outside air, with threshold, windows, gaps, stalls, additions and turnings.
/// Opaque, in page units, the same on every computer: nothing of the desktop's palette or locale is in it.
void drawPaperChart(QPainter& painter, const QRectF& target, const PaperChart& chart);

}  // namespace midden::ui
