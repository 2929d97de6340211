// SPDX-License-Identifier: GPL-3.0-or-later
// The heap itself, strip by strip between one column and the next.
#pragma once

#include "ui/layers/layers_plan.h"

namespace midden::ui {

/// Fills in areas, seams, contours, the surface and how far thermometers reach.
void planHeap(LayersPlan& plan, const LayersSource& source);

}  // namespace midden::ui
