// SPDX-License-Identifier: GPL-3.0-or-later
// What the painting functions of the layers share.
#pragma once

#include <QPainter>

#include "ui/layers/layers_dress.h"

namespace midden::ui {

struct LayersCanvas {
    QPainter& painter;
    const LayersPlan& plan;
    const LayersDress& dress;

    const Palette& palette() const { return dress.palette; }
    const QColor& fill(HeatTone tone) const { return dress.fill.at(static_cast<std::size_t>(tone)); }
};

/// With a seam of the ground around it, so that it stands out from whatever it crosses.
template <class Draw>
void drawSeamed(const LayersCanvas& canvas, QPen pen, const Draw& draw) {
    canvas.painter.setBrush(Qt::NoBrush);
    QPen seam{canvas.palette().ground, pen.widthF() + 2.4};
    seam.setCapStyle(Qt::FlatCap);
    canvas.painter.setPen(seam);
    draw();
    canvas.painter.setPen(pen);
    draw();
}

void write(const LayersCanvas& canvas, const QRectF& box, int flags, const QString& text, const QColor& colour);
/// Around its centre, on a patch of the ground, so that nothing runs through the words.
void writeOnPatch(const LayersCanvas& canvas, QPointF centre, const QString& text);
/// The sign of a feed, a level or a harvest.
void paintMark(const LayersCanvas& canvas, EventKind kind, QPointF place);

/// The bin as it stands now, its words, and those of the thermometers.
void paintCut(const LayersCanvas& canvas);
void paintCutWords(const LayersCanvas& canvas);
void paintNames(const LayersCanvas& canvas);

}  // namespace midden::ui
