// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_picture.h"

#include <QCategoryAxis>
#include <QChart>
#include <QGraphicsItem>
#include <QGraphicsLayout>
#include <QLineSeries>
#include <QPainter>

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

/// The chart with its axes and as many series as any plan has needed so far. They are used again for every picture:
/// Qt Charts takes down what is removed only later, and until then would draw it.
class ChartPicture::Plotter {
  public:
    explicit Plotter(QChart& chart)
        : chart_{chart}, time_{addedAxis(chart, Qt::AlignBottom)}, heat_{addedAxis(chart, Qt::AlignLeft)} {}

    void draw(const ChartPlan& plan, const ChartDress& dress) {
        time_->setRange(0, static_cast<double>(plan.visible.length().count));
        heat_->setRange(plan.lowestCelsius, plan.highestCelsius);
        markAxis(*time_, fromLeftEdge(plan), dress);
        markAxis(*heat_, plan.temperatureTicks, dress);
        used_ = 0;
        for (const ChartLine& line : plan.outside) {
            drawLine(line, QPen{dress.palette.outside, 1}, plan.visible.from);
        }
        if (!plan.thresholdLabel.isEmpty()) {
            const double level = plan.thresholdCelsius;
            drawLine({{plan.visible.from, level}, {plan.visible.to, level}}, QPen{dress.palette.text, 1},
                     plan.visible.from);
        }
        for (const ChartTrace& trace : plan.traces) {
            for (const ChartLine& line : trace.lines) {
                drawLine(line, tracePen(dress.palette, trace.look), plan.visible.from);
            }
        }
        for (std::size_t i = used_; i < series_.size(); ++i) {
            series_[i]->setVisible(false);
        }
    }

  private:
    void drawLine(const ChartLine& line, const QPen& pen, Instant leftEdge) {
        QList<QPointF> points;
        points.reserve(static_cast<qsizetype>(line.size()));
        for (const ChartPoint& point : line) {
            points.emplace_back(static_cast<double>((point.at - leftEdge).count), point.celsius);
        }
        QLineSeries* series = next();
        series->replace(points);
        series->setPen(pen);
        series->setVisible(true);
    }

    QLineSeries* next() {
        if (used_ == series_.size()) {
            auto* series = new QLineSeries;
            chart_.addSeries(series);
            series->attachAxis(time_);
            series->attachAxis(heat_);
            series_.push_back(series);
        }
        return series_[used_++];
    }

    QChart& chart_;
    QCategoryAxis* time_;  // the chart owns axes and series
    QCategoryAxis* heat_;
    std::vector<QLineSeries*> series_;
    std::size_t used_ = 0;
};

ChartPicture::ChartPicture(QObject* parent)
    : QGraphicsScene{parent},
      chart_{new QChart},
      under_{new Layer{paintBehind}},
      over_{new Layer{paintInFront}},
      plotter_{std::make_unique<Plotter>(*chart_)} {
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

void ChartPicture::show(const ChartPlan& plan, const ChartDress& dress) {
    layout_ = layoutOf(plan, dress.font, dress.size);
    setSceneRect({QPointF{}, dress.size});
    setBackgroundBrush(dress.palette.ground);
    chart_->resize(dress.size);
    chart_->setPlotArea(layout_.plot);
    plotter_->draw(plan, dress);
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
