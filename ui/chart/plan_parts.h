// SPDX-License-Identifier: GPL-3.0-or-later
// The parts a chart plan is put together from.
#pragma once

#include "ui/chart/chart_plan.h"
#include "ui/chart/chart_source.h"

namespace midden::ui {

/// Pixels from the plot's left edge.
double pixelAt(const ChartView& view, Instant at);

/// The part of a set that can be seen; pieces closer than a pixel become one. Looks at no others.
IntervalSet visiblePieces(const IntervalSet& set, const ChartView& view);

void planThreshold(ChartPlan& plan, const BatchReview& review, const ChartView& view);
void planGaps(ChartPlan& plan, const ChartSource& source, const ChartView& view);
void planLane(ChartPlan& plan, const BatchRecord& record, const ChartView& view);
void planStalls(ChartPlan& plan, const BatchReview& review, const ChartView& view);
void planHeat(ChartPlan& plan, const BinHeat& heat, const ChartView& view);
void planStrips(ChartPlan& plan, const ChartSource& source, const ChartView& view);

}  // namespace midden::ui
