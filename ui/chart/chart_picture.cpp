// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_picture.h"

#include <QCategoryAxis>
#include <QChart>
#include <QGraphicsItem>
#include <QGraphicsLayout>
#include <QPainter>

#include "ui/chart/chart_layers.h"

namespace midden::ui {

/// Behind or in front of the lines.
class ChartPicture::Layer : public QGraphicsItem {
  public:
    using Paint = void (*)(const ChartCanvas&);
    explicit Layer(Paint how) : paint_{how} {}

    void show(const ChartPlan& plan, const ChartLayout& layout, const ChartDress& dress) {
        prepareGeometryChange();
        plan_ = &plan;
        layout_ = &layout;
        dress_ = dress;
        update();
    }
    QRectF boundingRect() const override { return {QPointF{}, dress_.size}; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) override {
        if (plan_ != nullptr) {
            painter->setRenderHint(QPainter::Antialiasing);
            paint_({*painter, *plan_, *layout_, dress_});
        }
    }

  private:
    Paint paint_;
    const ChartPlan* plan_ = nullptr;  // the picture's
    const ChartLayout* layout_ = nullptr;
    ChartDress dress_;
};

namespace {

/// Half of each, so that the grid stays behind everything.
QColor mixed(const QColor& a, const QColor& b) {
    return {(a.red() + b.red()) / 2, (a.green() + b.green()) / 2, (a.blue() + b.blue()) / 2};
}

/// Marks exactly where told; the ready-made time axis would put them wrong on the days the clocks change.
void markAxis(QCategoryAxis& axis, const std::vector<ChartTick>& ticks, const ChartDress& dress) {
    for (const QString& label : axis.categoriesLabels()) {
        axis.remove(label);
    }
    for (const ChartTick& tick : ticks) {
        axis.append(tick.label, tick.value);
    }
    axis.setLabelsFont(dress.font);
    axis.setLabelsColor(dress.palette.muted);
    axis.setGridLinePen(QPen{mixed(dress.palette.hairline, dress.palette.ground), 1});
    axis.setLinePen(QPen{dress.palette.hairline, 1});
}

/// Time on the chart is counted from the left edge: doubles and Qt's own arithmetic stay exact there.
std::vector<ChartTick> fromLeftEdge(const ChartPlan& plan) {
    std::vector<ChartTick> ticks = plan.timeTicks;
    for (ChartTick& tick : ticks) {
        tick.value -= static_cast<double>(plan.visible.from.utcSeconds);
    }
    return ticks;
}

QCategoryAxis* addedAxis(QChart& chart, Qt::Alignment side) {
    auto* axis = new QCategoryAxis;
    axis->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
    axis->setTruncateLabels(false);
    chart.addAxis(axis, side);
    return axis;
}

}  // namespace

/// The chart's axes; the chart owns them.
class ChartPicture::Axes {
  public:
    explicit Axes(QChart& chart) : time_{addedAxis(chart, Qt::AlignBottom)}, heat_{addedAxis(chart, Qt::AlignLeft)} {}

    void show(const ChartPlan& plan, const ChartDress& dress) {
        time_->setRange(0, static_cast<double>(plan.visible.length().count));
        heat_->setRange(plan.lowestCelsius, plan.highestCelsius);
        markAxis(*time_, fromLeftEdge(plan), dress);
        markAxis(*heat_, plan.temperatureTicks, dress);
    }

  private:
    QCategoryAxis* time_;
    QCategoryAxis* heat_;
};

ChartPicture::ChartPicture(QObject* parent)
    : QGraphicsScene{parent},
      chart_{new QChart},
      under_{new Layer{paintBehind}},
      over_{new Layer{paintInFront}},
      axes_{std::make_unique<Axes>(*chart_)} {
    addItem(under_);
    addItem(chart_);
    addItem(over_);
    under_->setZValue(-1);
    over_->setZValue(1);
    chart_->setBackgroundVisible(false);
    chart_->legend()->hide();
    chart_->setMargins({});
}

ChartPicture::~ChartPicture() = default;

void ChartPicture::show(ChartPlan plan, const ChartDress& dress) {
    plan_ = std::move(plan);
    layout_ = layoutOf(plan_, dress.font, dress.size);
    setSceneRect({QPointF{}, dress.size});
    setBackgroundBrush(dress.palette.ground);
    chart_->resize(dress.size);
    chart_->setPlotArea(layout_.plot);
    axes_->show(plan_, dress);
    chart_->layout()->activate();
    under_->show(plan_, layout_, dress);
    over_->show(plan_, layout_, dress);
}

void paintChart(QPainter& painter, const QRectF& target, const ChartPlan& plan, const ChartDress& dress) {
    ChartPicture picture;
    picture.show(plan, dress);
    picture.render(&painter, target, {QPointF{}, dress.size}, Qt::IgnoreAspectRatio);
}

}  // namespace midden::ui
