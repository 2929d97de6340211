// SPDX-License-Identifier: GPL-3.0-or-later
// What happened to the heap, and the axes around it.
#pragma once

#include "ui/layers/layers_plan.h"

namespace midden::ui {

/// Feeds, levels, harvests, turnings and forkings.
void planEvents(LayersPlan& plan, const LayersSource& source, const LayersFrame& frame);
void planAxes(LayersPlan& plan, const LayersSource& source, const LayersFrame& frame);

}  // namespace midden::ui
