// SPDX-License-Identifier: GPL-3.0-or-later
// What lies under the cursor.
#pragma once

#include "ui/chart/chart_layout.h"
#include "ui/history/loaded_batch.h"

namespace midden::ui {

/// The drawn reading nearest to a point of the picture, within reach of it.
std::optional<ReadingSpot> readingNear(const LoadedBatch& batch, const ChartPlan& plan, const ChartLayout& layout,
                                       QPointF at);
/// The entry of the lane at a point.
const ChartMark* laneMarkNear(const ChartPlan& plan, const ChartLayout& layout, QPointF at);
/// The stall whose bracket is at a point.
const ChartStall* stallNear(const ChartPlan& plan, const ChartLayout& layout, QPointF at);
/// The criterion whose strip is at a point; empty = none.
QString stripNear(const ChartPlan& plan, const ChartLayout& layout, QPointF at);

}  // namespace midden::ui
