// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPolygonF>

class QPainter;
class QPen;

namespace midden::ui {

/// Draws an unbroken line, `points` from left to right. Where they lie less than a pixel apart it has no dashes: they
/// would make noise of it and hide extremes.
void drawTrace(QPainter& painter, const QPolygonF& points, const QPen& pen);

}  // namespace midden::ui
