// SPDX-License-Identifier: GPL-3.0-or-later
// The chart under wheel, mouse and keys.
#include <QKeyEvent>
#include <QMouseEvent>
#include <QToolTip>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "ui/history/pointing.h"
#include "ui/history/trace_view.h"
#include "ui/history/zoom.h"

namespace midden::ui {

namespace {

constexpr double wheelNotch = 120;        // of QWheelEvent::angleDelta
constexpr double closerPerNotch = 0.8;    // what is left of the visible time
constexpr double closerPerKey = 2.0 / 3;  // the same for the plus key
constexpr double keyStep = 0.15;          // share of the visible time
constexpr double pageStep = 0.9;
constexpr double dragStart = 4;  // pixels

}  // namespace

void TraceView::wheelEvent(QWheelEvent* event) {
    if (!batch_) {
        return;
    }
    const Interval whole = batch_->whole;
    const QPoint turned = event->angleDelta();
    const bool sideways = std::abs(turned.x()) > std::abs(turned.y()) || event->modifiers() == Qt::ShiftModifier;
    if (sideways) {
        const int notches = turned.x() != 0 ? turned.x() : turned.y();
        look(moved(visible_, whole, -keyStep * notches / wheelNotch));
    } else {
        const double factor = std::pow(closerPerNotch, turned.y() / wheelNotch);
        look(zoomed(visible_, whole, layoutNow().instantAt(event->position().x()), factor));
    }
    event->accept();
}

void TraceView::mousePressEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) {
        pressed_ = event->position();
        visibleWhenPressed_ = visible_;
        dragging_ = false;
    }
    event->accept();
}

void TraceView::mouseMoveEvent(QMouseEvent* event) {
    if (!batch_) {
        return;
    }
    if (!pressed_) {
        point(event->position());
        return;
    }
    const double dragged = event->position().x() - pressed_->x();
    if (dragging_ || std::abs(dragged) > dragStart) {
        dragging_ = true;
        look(moved(visibleWhenPressed_, batch_->whole, -dragged / layoutNow().plot.width()));
    }
}

void TraceView::mouseReleaseEvent(QMouseEvent* event) {
    if (pressed_ && !dragging_ && batch_) {
        click(event->position());
    }
    pressed_.reset();
    dragging_ = false;
}

void TraceView::leaveEvent(QEvent* event) {
    QGraphicsView::leaveEvent(event);
    pointed_.reset();
    emit pointedAt({});
    viewport()->update();
}

void TraceView::point(QPointF at) {
    const auto spot = readingNear(*batch_, plan(), layoutNow(), at);
    if (spot != pointed_) {
        pointed_ = spot;
        emit pointedAt(spot);
        viewport()->update();
    }
    if (const ChartMark* mark = laneMarkNear(picture_.plan(), picture_.layout(), at)) {
        QToolTip::showText(viewport()->mapToGlobal(at.toPoint()), mark->words, viewport());
    } else {
        QToolTip::hideText();
    }
}

void TraceView::click(QPointF at) {
    const ChartLayout& layout = layoutNow();
    if (const ChartStall* stall = stallNear(picture_.plan(), layout, at)) {
        emit stallAsked(stall->interval.from);
        return;
    }
    const QString strip = stripNear(picture_.plan(), layout, at);
    if (strip.isEmpty()) {
        choose(readingNear(*batch_, picture_.plan(), layout, at));
    }
    if (at.x() >= layout.plot.left() && at.x() <= layout.plot.right()) {
        emit hourAsked(strip, layout.instantAt(at.x()));
    }
}

std::optional<ReadingSpot> TraceView::firstInSight() const {
    std::optional<ReadingSpot> first;
    const auto& tracks = batch_->record.tracks;
    for (std::size_t track = 0; track < tracks.size(); ++track) {
        const auto& samples = tracks[track].samples;
        const auto found =
            std::ranges::lower_bound(samples, visible_.from, {}, [](const Sample& one) { return one.at; });
        const bool earlier =
            found != samples.end() && (!first || found->at < tracks[first->track].samples[first->sample].at);
        if (earlier) {
            first = ReadingSpot{track, static_cast<std::size_t>(found - samples.begin())};
        }
    }
    return first;
}

bool TraceView::stepTo(int key) {
    std::optional<ReadingSpot> next;
    if (!marked_) {
        next = firstInSight();
    } else if (key == Qt::Key_Left || key == Qt::Key_Right) {
        next = alongTrack(*batch_, *marked_, key == Qt::Key_Right);
    } else {
        next = acrossTracks(*batch_, *marked_, key == Qt::Key_Down);
    }
    if (next) {
        choose(next);
    }
    return true;
}

const Stall* TraceView::stallAt(Instant at) const {
    const auto& stalls = batch_->review.stalls;
    const auto found = std::ranges::find_if(
        stalls, [&](const Stall& stall) { return at >= stall.from && (!stall.to || at <= *stall.to); });
    return found == stalls.end() ? nullptr : &*found;
}

/// The stall of the marked reading, else the latest.
bool TraceView::askStall() {
    const auto& stalls = batch_->review.stalls;
    const Stall* stall = marked_ ? stallAt(sampleOf(*batch_, *marked_).at) : nullptr;
    if (stall == nullptr && !stalls.empty()) {
        stall = &stalls.back();
    }
    if (stall != nullptr) {
        emit stallAsked(stall->from);
    }
    return stall != nullptr;
}

bool TraceView::askHour(int key) {
    if (!marked_) {
        return false;
    }
    const Instant at = sampleOf(*batch_, *marked_).at;
    const Stall* stall = key == Qt::Key_Space ? nullptr : stallAt(at);
    if (stall != nullptr) {
        emit stallAsked(stall->from);
    } else {
        emit hourAsked({}, at);
    }
    return true;
}

bool TraceView::lookAround(const QKeyEvent& event) {
    const Interval whole = batch_->whole;
    switch (event.key()) {
        case Qt::Key_Plus:
        case Qt::Key_Equal:  // the unshifted plus key of many keyboards
            zoom(closerPerKey);
            return true;
        case Qt::Key_Minus:
            zoom(1 / closerPerKey);
            return true;
        case Qt::Key_Home:
            lookAtWholeBatch();
            return true;
        case Qt::Key_PageUp:
            look(moved(visible_, whole, -pageStep));
            return true;
        case Qt::Key_PageDown:
            look(moved(visible_, whole, pageStep));
            return true;
        default:
            return false;
    }
}

void TraceView::keyPressEvent(QKeyEvent* event) {
    if (!batch_) {
        return;
    }
    const int key = event->key();
    const bool sideways = key == Qt::Key_Left || key == Qt::Key_Right;
    bool done = false;
    if (sideways && event->modifiers().testFlag(Qt::ShiftModifier)) {
        look(moved(visible_, batch_->whole, key == Qt::Key_Right ? keyStep : -keyStep));
        done = true;
    } else if (sideways || key == Qt::Key_Up || key == Qt::Key_Down) {
        done = stepTo(key);
    } else if (key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Space) {
        done = askHour(key);
    } else if (key == Qt::Key_F8) {
        done = askStall();
    } else if (key == Qt::Key_Escape && marked_) {
        choose({});
        done = true;
    } else {
        done = lookAround(*event);
    }
    event->setAccepted(done);
}

}  // namespace midden::ui
