// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_picture.h"

#include <QCategoryAxis>
#include <QChart>
#include <QGraphicsItem>
#include <QGraphicsLayout>
#include <QLineSeries>
#include <QPainter>
#include <QScopedPointer>

#include "ui/chart/chart_layers.h"
#include "ui/chart/trace_look.h"

namespace midden::ui {

/// Behind or in front of the lines.
class ChartPicture::Layer : public QGraphicsItem {
  public:
    using Paint = void (*)(const ChartCanvas&);
    explicit Layer(Paint how) : paint_{how} {}

    void show(const ChartPlan& plan, const ChartLayout& layout, const ChartDress& dress) {
        prepareGeometryChange();
        plan_ = plan;
        layout_ = layout;
        dress_ = dress;
        update();
    }
    QRectF boundingRect() const override { return {QPointF{}, dress_.size}; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* /*option*/, QWidget* /*widget*/) override {
        painter->setRenderHint(QPainter::Antialiasing);
        paint_({*painter, plan_, layout_, dress_});
    }

  private:
    Paint paint_;
    ChartPlan plan_;
    ChartLayout layout_;
    ChartDress dress_;
};

namespace {

/// Half of each, so that the grid stays behind everything.
QColor mixed(const QColor& a, const QColor& b) {
    return {(a.red() + b.red()) / 2, (a.green() + b.green()) / 2, (a.blue() + b.blue()) / 2};
}

/// Marks exactly where told; the ready-made time axis would put them wrong on the days the clocks change.
QCategoryAxis* axisOf(const std::vector<ChartTick>& ticks, double from, double to, const ChartDress& dress) {
    auto* axis = new QCategoryAxis;
    axis->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
    axis->setStartValue(from);
    for (const ChartTick& tick : ticks) {
        axis->append(tick.label, tick.value);
    }
    axis->setRange(from, to);
    axis->setLabelsFont(dress.font);
    axis->setLabelsColor(dress.palette.muted);
    axis->setGridLinePen(QPen{mixed(dress.palette.hairline, dress.palette.ground), 1});
    axis->setLinePen(QPen{dress.palette.hairline, 1});
    axis->setTruncateLabels(false);
    return axis;
}

/// Time on the chart is counted from the left edge: doubles and Qt's own arithmetic stay exact there.
class Plotter {
  public:
    Plotter(QChart& chart, const ChartPlan& plan, const ChartDress& dress)
        : chart_{chart},
          plan_{plan},
          time_{axisOf(fromLeftEdge(plan), 0, static_cast<double>(plan.visible.length().count), dress)},
          heat_{axisOf(plan.temperatureTicks, plan.lowestCelsius, plan.highestCelsius, dress)} {
        chart_.addAxis(time_, Qt::AlignBottom);
        chart_.addAxis(heat_, Qt::AlignLeft);
    }

    void draw(const ChartLine& line, const QPen& pen) {
        QList<QPointF> points;
        points.reserve(static_cast<qsizetype>(line.size()));
        for (const ChartPoint& point : line) {
            points.emplace_back(static_cast<double>((point.at - plan_.visible.from).count), point.celsius);
        }
        auto* series = new QLineSeries;
        series->replace(points);
        series->setPen(pen);
        chart_.addSeries(series);
        series->attachAxis(time_);
        series->attachAxis(heat_);
    }

  private:
    static std::vector<ChartTick> fromLeftEdge(const ChartPlan& plan) {
        std::vector<ChartTick> ticks = plan.timeTicks;
        for (ChartTick& tick : ticks) {
            tick.value -= static_cast<double>(plan.visible.from.utcSeconds);
        }
        return ticks;
    }

    QChart& chart_;
    const ChartPlan& plan_;
    QCategoryAxis* time_;  // both owned by the chart
    QCategoryAxis* heat_;
};

void drawLines(QChart& chart, const ChartPlan& plan, const ChartDress& dress) {
    Plotter plotter{chart, plan, dress};
    for (const ChartLine& line : plan.outside) {
        plotter.draw(line, QPen{dress.palette.outside, 1});
    }
    if (!plan.thresholdLabel.isEmpty()) {
        plotter.draw({{plan.visible.from, plan.thresholdCelsius}, {plan.visible.to, plan.thresholdCelsius}},
                     QPen{dress.palette.text, 1});
    }
    for (const ChartTrace& trace : plan.traces) {
        for (const ChartLine& line : trace.lines) {
            plotter.draw(line, tracePen(dress.palette, trace.look));
        }
    }
}

void takeDown(QChart& chart) {
    chart.removeAllSeries();
    for (QAbstractAxis* axis : chart.axes()) {
        chart.removeAxis(axis);
        delete axis;
    }
}

}  // namespace

ChartPicture::ChartPicture(QObject* parent)
    : QGraphicsScene{parent}, chart_{new QChart}, under_{new Layer{paintBehind}}, over_{new Layer{paintInFront}} {
    addItem(under_);
    addItem(chart_);
    addItem(over_);
    under_->setZValue(-1);
    over_->setZValue(1);
    chart_->setBackgroundVisible(false);
    chart_->legend()->hide();
    chart_->setMargins({});
}

void ChartPicture::show(const ChartPlan& plan, const ChartDress& dress) {
    layout_ = layoutOf(plan, dress.font, dress.size);
    setSceneRect({QPointF{}, dress.size});
    setBackgroundBrush(dress.palette.ground);
    takeDown(*chart_);
    chart_->resize(dress.size);
    chart_->setPlotArea(layout_.plot);
    drawLines(*chart_, plan, dress);
    chart_->layout()->activate();
    under_->show(plan, layout_, dress);
    over_->show(plan, layout_, dress);
}

void paintChart(QPainter& painter, const QRectF& target, const ChartPlan& plan, const ChartDress& dress) {
    ChartPicture picture;
    picture.show(plan, dress);
    picture.render(&painter, target, {QPointF{}, dress.size}, Qt::IgnoreAspectRatio);
}

}  // namespace midden::ui
