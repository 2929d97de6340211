// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_view.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QFontMetricsF>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include "ui/layers/layers_painter.h"

namespace midden::ui {

namespace {

/// A screen reader is told that it is a picture of figures.
QAccessibleInterface* pictureOfLayers(const QString& /*kind*/, QObject* object) {
    auto* view = qobject_cast<LayersView*>(object);
    return view == nullptr ? nullptr : new QAccessibleWidget{view, QAccessible::Chart};
}

}  // namespace

LayersView::LayersView(QWidget* parent) : QWidget{parent} {
    QAccessible::installFactory(pictureOfLayers);  // a second time does nothing
    setObjectName(QStringLiteral("layers"));
    setAccessibleName(tr("Picture of the layers"));
    setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
}

void LayersView::show(LayersPtr source, const LayersTongue& tongue) {
    source_ = std::move(source);
    tongue_ = tongue;
    pointed_.reset();
    chosen_.reset();
    setAccessibleDescription(source_ ? layersSummary(*source_, tongue_) : QString{});
    outdate();
}

LayersDress LayersView::dress() const {
    QFont own = font();
    own.setPixelSize(QFontInfo{font()}.pixelSize());
    return layersDress(Palette::of(*this), own);
}

const LayersPlan& LayersView::plan() {
    if (!plan_) {
        const QFontMetricsF metrics{dress().font};
        LayersFrame frame{size(), metrics.height(), {}, tongue_.zone, tongue_.unit};
        frame.textWidth = [metrics](const QString& text) { return metrics.horizontalAdvance(text); };
        plan_ = layersPlan(source_ ? *source_ : LayersSource{}, frame);
    }
    return *plan_;
}

void LayersView::outdate() {
    plan_.reset();
    picture_ = {};
    update();
}

void LayersView::paintEvent(QPaintEvent* /*event*/) {
    const LayersDress dressed = dress();
    if (picture_.isNull()) {
        const double ratio = devicePixelRatioF();
        picture_ = QPixmap{(QSizeF{size()} * ratio).toSize()};
        picture_.setDevicePixelRatio(ratio);
        picture_.fill(dressed.palette.ground);
        QPainter painter{&picture_};
        if (source_) {
            const auto& layout = plan().layout;
            paintLayers(painter, {0, 0, layout.names.right(), layout.times.bottom()}, plan(), dressed);
        }
    }
    QPainter painter{this};
    painter.drawPixmap(0, 0, picture_);
    if (source_ && spot()) {
        paintPointed(painter, *source_, plan(), dressed, *spot());
    }
    if (hasFocus()) {
        painter.setPen(QPen{dressed.palette.accent, 1});
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(plan().layout.plot);
    }
}

void LayersView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    outdate();
}

void LayersView::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange ||
        event->type() == QEvent::StyleChange) {
        outdate();
    }
}

void LayersView::point(std::optional<LayerSpot> spot) {
    if (spot != pointed_) {
        pointed_ = spot;
        emit pointedAt(pointed_);
        update();
    }
}

void LayersView::choose(std::optional<LayerSpot> spot) {
    pointed_.reset();
    chosen_ = spot;
    if (source_) {
        setAccessibleDescription(chosen_ ? layerStory(*source_, *chosen_, tongue_) : layersSummary(*source_, tongue_));
    }
    emit chosen(chosen_);
    update();
}

void LayersView::mouseMoveEvent(QMouseEvent* event) {
    if (source_) {
        point(layerNear(*source_, plan().layout, event->position()));
    }
}

void LayersView::mousePressEvent(QMouseEvent* event) {
    if (source_ && event->button() == Qt::LeftButton) {
        choose(layerNear(*source_, plan().layout, event->position()));
    }
    event->accept();
}

void LayersView::leaveEvent(QEvent* event) {
    QWidget::leaveEvent(event);
    point({});
}

std::optional<LayerSpot> LayersView::stepped(int key) const {
    const auto from = spot();
    if (!from) {
        return firstSpot(*source_);
    }
    switch (key) {
        case Qt::Key_Left:
        case Qt::Key_Right:
            return alongTime(*source_, *from, key == Qt::Key_Right);
        case Qt::Key_Up:
        case Qt::Key_Down:
            return acrossLayers(*source_, *from, key == Qt::Key_Up);
        case Qt::Key_Home:
        case Qt::Key_End:
            return endOfLayer(*source_, *from, key == Qt::Key_End);
        default:
            return from;
    }
}

void LayersView::step(int key) {
    if (const auto next = stepped(key)) {
        choose(next);
    }
}

void LayersView::keyPressEvent(QKeyEvent* event) {
    const int key = event->key();
    const bool steps = key == Qt::Key_Left || key == Qt::Key_Right || key == Qt::Key_Up || key == Qt::Key_Down ||
                       key == Qt::Key_Home || key == Qt::Key_End;
    const bool asks = key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Space;
    if (source_ && (steps || asks)) {
        step(key);
    } else if (source_ && key == Qt::Key_Escape && spot()) {
        choose({});
    } else {
        QWidget::keyPressEvent(event);
    }
}

}  // namespace midden::ui
