// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFont>
#include <QGraphicsScene>
#include <QRectF>
#include <memory>

#include "ui/chart/chart_layout.h"
#include "ui/chart/chart_plan.h"
#include "ui/shared/palette.h"

class QChart;
class QPainter;

namespace midden::ui {

/// How the picture is dressed; on paper with the light palette. `size` and the font's pixel size are in the pixels the
/// plan was made for.
struct ChartDress {
    Palette palette;
    QFont font;
    QSizeF size;
};

/// The picture as a scene: Qt Charts draws the axes, two layers of ours what it has no words for, and the lines: its
/// own are stroked twice and take their time over dense ones. The scene owns all of it.
class ChartPicture : public QGraphicsScene {
    Q_OBJECT

  public:
    explicit ChartPicture(QObject* parent = nullptr);
    ChartPicture(const ChartPicture&) = delete;
    ChartPicture& operator=(const ChartPicture&) = delete;
    ~ChartPicture() override;
    void show(ChartPlan plan, const ChartDress& dress);
    const ChartPlan& plan() const { return plan_; }
    const ChartLayout& layout() const { return layout_; }

  private:
    class Layer;
    class Axes;
    QChart* chart_;
    Layer* under_;
    Layer* over_;
    std::unique_ptr<Axes> axes_;
    ChartPlan plan_;
    ChartLayout layout_;
};

/// Draws the picture once, vector throughout and opaque, filling `target` (in the painter's own units).
void paintChart(QPainter& painter, const QRectF& target, const ChartPlan& plan, const ChartDress& dress);

/// How wide the plot will be in a picture this wide: what `ChartView::width` wants.
double plotWidth(double pictureWidth, const QFont& font);

}  // namespace midden::ui
