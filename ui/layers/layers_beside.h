// SPDX-License-Identifier: GPL-3.0-or-later
// Beside the picture: the bin as it stands now.
#pragma once

#include "ui/layers/layers_plan.h"

namespace midden::ui {

void planCut(LayersPlan& plan, const LayersSource& source, const LayersFrame& frame);
void planThermometers(LayersPlan& plan, const LayersSource& source, const LayersFrame& frame);

}  // namespace midden::ui
