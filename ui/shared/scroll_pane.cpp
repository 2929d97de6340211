// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/scroll_pane.h"

#include <QApplication>
#include <QEvent>
#include <QLayout>
#include <QScrollBar>

namespace midden::ui {

namespace {

// The least that is still worth looking through, in letters.
constexpr int leastLetters = 24;
constexpr int leastLines = 6;

}  // namespace

ScrollPane::ScrollPane(QWidget* content, QWidget* parent) : QScrollArea{parent} {
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus);
    setFocusProxy(content);
    setWidget(content);
    content->installEventFilter(this);
    connect(qApp, &QApplication::focusChanged, this, [this](QWidget*, QWidget* now) { reveal(now); });
}

/// What has the keyboard may go with it, and the keyboard then goes elsewhere.
ScrollPane::~ScrollPane() {
    disconnect(qApp, nullptr, this, nullptr);
}

QSize ScrollPane::sizeHint() const {
    return widget()->sizeHint();
}

QSize ScrollPane::minimumSizeHint() const {
    const QSize least{leastLetters * fontMetrics().averageCharWidth(), leastLines * fontMetrics().height()};
    return least.boundedTo(widget()->minimumSizeHint());
}

int ScrollPane::leastHeight(int width) const {
    const QLayout* inner = widget()->layout();
    return inner != nullptr && inner->hasHeightForWidth() ? inner->minimumHeightForWidth(width)
                                                          : widget()->minimumSizeHint().height();
}

bool ScrollPane::eventFilter(QObject* watched, QEvent* event) {
    if (watched == widget() && event->type() == QEvent::LayoutRequest) {
        fit();
    }
    return QScrollArea::eventFilter(watched, event);
}

void ScrollPane::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    fit();
}

void ScrollPane::fit() {
    QSize room = maximumViewportSize();
    const int leastWidth = widget()->minimumSizeHint().width();
    const bool isTooLow = leastHeight(std::max(room.width(), leastWidth)) > room.height();
    room.rwidth() -= isTooLow ? verticalScrollBar()->sizeHint().width() : 0;
    const int width = std::max(room.width(), leastWidth);
    room.rheight() -= width > room.width() ? horizontalScrollBar()->sizeHint().height() : 0;
    widget()->resize(width, std::max(room.height(), leastHeight(width)));
}

/// Only what a person goes to: of a content that fits there is nothing to reveal.
void ScrollPane::reveal(const QWidget* now) {
    const bool isHere = now != nullptr && now != widget() && widget()->isAncestorOf(now);
    if (isHere && !widget()->rect().isEmpty() && widget()->size() != viewport()->size()) {
        ensureWidgetVisible(const_cast<QWidget*>(now));
    }
}

}  // namespace midden::ui
