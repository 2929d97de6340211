// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/layers/layers_dress.h"
#include "ui/layers/layers_pointing.h"

class QPainter;

namespace midden::ui {

/// The whole picture, vector throughout and opaque, filling `target` in the painter's own units: window and paper.
void paintLayers(QPainter& painter, const QRectF& target, const LayersPlan& plan, const LayersDress& dress);

/// Over it: the layer that is pointed at, where it may have stood, and when. In the plan's pixels.
void paintPointed(QPainter& painter, const LayersSource& source, const LayersPlan& plan, const LayersDress& dress,
                  LayerSpot spot);

}  // namespace midden::ui
