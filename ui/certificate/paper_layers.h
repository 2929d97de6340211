// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>

#include "core/quantities/zone.h"
#include "ui/layers/layers_source.h"

class QPainter;

namespace midden::ui {

/// The layers of a fed bin in the dress of the certificate: opaque, in page units, the same on every computer.
void drawPaperLayers(QPainter& painter, const QRectF& target, const LayersSource& source, const TimeZone& zone);

}  // namespace midden::ui
