// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/trace_view.h"

#include <QEvent>
#include <QFontMetricsF>
#include <QPainter>

#include "ui/history/zoom.h"
#include "ui/shared/words.h"

namespace midden::ui {

TraceView::TraceView(QWidget* parent) : QGraphicsView{parent} {
    setScene(&picture_);
    setObjectName(QStringLiteral("trace"));
    viewport()->setObjectName(QStringLiteral("traceViewport"));
    setFrameShape(QFrame::NoFrame);
    setAlignment(Qt::AlignLeft | Qt::AlignTop);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setViewportUpdateMode(QGraphicsView::FullViewportUpdate);
    setInteractive(false);
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Temperature chart"));
    setAccessibleDescription(
        tr("Left and right: from reading to reading. Up and down: to another position. Shift with left or right: move. "
           "Plus and minus: closer and further. Home: the whole batch. Enter: why this hour counts or not, and of a "
           "stalled stretch what to try; Space: "
           "always why it counts or not. F8: the latest stall."));
}

void TraceView::show(LoadedPtr batch, const TraceSettings& settings) {
    const bool sameBatch = batch_ && batch && batch_->record.batch.id == batch->record.batch.id;
    const bool sawAll = batch_ && visible_ == batch_->whole;
    const auto marked = marked_ && sameBatch ? std::optional{readingAt(*batch_, *marked_)} : std::nullopt;
    batch_ = std::move(batch);
    settings_ = settings;
    pointed_.reset();
    marked_ = marked ? spotOf(*batch_, marked->place.position, marked->at) : std::nullopt;
    if (!sameBatch) {
        hour_.reset();
    }
    if (batch_ && (!sameBatch || sawAll)) {
        visible_ = batch_->whole;
    }
    outdate();
}

void TraceView::look(Interval visible) {
    if (visible == visible_ || !batch_) {
        return;
    }
    visible_ = visible;
    outdate();
    emit visibleChanged();
}

void TraceView::lookAtWholeBatch() {
    if (batch_) {
        look(batch_->whole);
    }
}

void TraceView::zoom(double factor) {
    if (!batch_) {
        return;
    }
    const Instant middle = visible_.from + Seconds{visible_.length().count / 2};
    look(zoomed(visible_, batch_->whole,
                marked_ ? batch_->record.tracks[marked_->track].samples[marked_->sample].at : middle, factor));
}

void TraceView::mark(std::optional<ReadingSpot> spot) {
    marked_ = spot;
    if (marked_ && batch_) {
        const Instant at = batch_->record.tracks[spot->track].samples[spot->sample].at;
        look(showing(visible_, batch_->whole, at));
    }
    viewport()->update();
}

void TraceView::markHour(std::optional<Instant> hour) {
    hour_ = hour;
    viewport()->update();
}

const ChartPlan& TraceView::plan() {
    redraw();
    return picture_.plan();
}

const ChartLayout& TraceView::layoutNow() {
    redraw();
    return picture_.layout();
}

void TraceView::outdate() {
    outdated_ = true;
    viewport()->update();
}

/// Planned anew at most once a frame, however many wheel steps arrive in between.
void TraceView::redraw() {
    if (!outdated_ || !batch_) {
        return;
    }
    outdated_ = false;
    const QSizeF size = viewport()->size();
    ChartView view;
    view.visible = visible_;
    view.width = plotWidth(size.width(), font());
    view.columns = view.width * devicePixelRatioF();
    view.zone = settings_.zone;
    view.unit = settings_.unit;
    view.criteria = settings_.criteria;
    view.withHeat = settings_.withHeat;
    view.projection = batch_->isFinished() ? std::nullopt : batch_->outlook.projection;
    view.textWidth = [metrics = QFontMetricsF{font()}](const QString& text) { return metrics.horizontalAdvance(text); };
    picture_.show(chartPlan(batch_->source, view), {Palette::of(*this), font(), size});
}

void TraceView::paintEvent(QPaintEvent* event) {
    redraw();
    QGraphicsView::paintEvent(event);
}

void TraceView::resizeEvent(QResizeEvent* event) {
    QGraphicsView::resizeEvent(event);
    outdate();
}

void TraceView::changeEvent(QEvent* event) {
    QGraphicsView::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange ||
        event->type() == QEvent::StyleChange) {
        outdate();
    }
}

void TraceView::choose(std::optional<ReadingSpot> spot) {
    mark(spot);
    emit chosen(spot);
}

QPointF TraceView::placeOf(ReadingSpot spot) const {
    const Sample& sample = batch_->record.tracks[spot.track].samples[spot.sample];
    return {picture_.layout().xOf(sample.at), picture_.layout().yOf(sample.temperature().value())};
}

void TraceView::drawRing(QPainter& painter, ReadingSpot spot) const {
    const QPointF place = placeOf(spot);
    if (picture_.layout().plot.adjusted(-8, -8, 8, 8).contains(place)) {
        painter.setPen(QPen{Palette::of(*this).text, 1.6});
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(place, 7, 7);
    }
}

void TraceView::drawForeground(QPainter* painter, const QRectF& /*rect*/) {
    if (!batch_) {
        return;
    }
    painter->setRenderHint(QPainter::Antialiasing);
    const ChartLayout& layout = picture_.layout();
    if (hour_ && *hour_ >= visible_.from && *hour_ <= visible_.to) {
        const double x = layout.xOf(*hour_);
        painter->setPen(QPen{Palette::of(*this).accent, 1.5});
        painter->drawLine(QPointF{x, layout.plot.top()}, QPointF{x, sceneRect().bottom()});
    }
    for (const auto& spot : {pointed_, marked_}) {
        if (spot) {
            drawRing(*painter, *spot);
        }
    }
    if (hasFocus()) {
        painter->setPen(QPen{Palette::of(*this).accent, 1});
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(layout.plot);
    }
}

}  // namespace midden::ui
