// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/in_view.h"

#include <QApplication>
#include <QEvent>
#include <QScrollArea>
#include <QScrollBar>

namespace midden::ui {

namespace {

/// Room kept free above and below, for the label over a field and the frame around a button.
constexpr int margin = 8;

QScrollArea* pageAround(const QWidget& form) {
    for (QWidget* above = form.parentWidget(); above != nullptr; above = above->parentWidget()) {
        if (auto* page = qobject_cast<QScrollArea*>(above)) {
            return page;
        }
    }
    return nullptr;
}

/// Scrolls no further than it takes; of what is taller than the page the top is shown.
void reveal(QScrollArea& page, const QWidget& part) {
    const int top = part.mapTo(page.widget(), QPoint{0, 0}).y() - margin;
    const int height = part.height() + 2 * margin;
    QScrollBar& bar = *page.verticalScrollBar();
    bar.setValue(qMin(qMax(bar.value(), top + height - page.viewport()->height()), top));
}

/// A field with its label, where the two stand in a widget of their own.
QWidget* withLabel(QWidget* field, const QWidget* form) {
    QWidget* around = field->parentWidget();
    return around != form && around->height() < 4 * field->height() ? around : field;
}

}  // namespace

InView::InView(QWidget* form, QList<QWidget*> feet) : QObject{form}, form_{form}, feet_{std::move(feet)} {
    form->installEventFilter(this);
    for (QWidget* foot : feet_) {
        foot->installEventFilter(this);
    }
    connect(qApp, &QApplication::focusChanged, this, [this](const QWidget*, const QWidget* now) {
        if (now != nullptr && form_->isAncestorOf(now)) {
            follow();
        }
    });
}

bool InView::eventFilter(QObject* watched, QEvent* event) {
    switch (event->type()) {
        case QEvent::Show:
            if (QScrollArea* page = watched == form_ ? pageAround(*form_) : nullptr) {
                page->viewport()->installEventFilter(this);
            }
            follow();
            break;
        case QEvent::Resize:
        case QEvent::Move:
            follow();
            break;
        default:
            break;
    }
    return QObject::eventFilter(watched, event);
}

/// Once for all the changes of one layout, and after them.
void InView::follow() {
    if (!isDue_) {
        isDue_ = true;
        QMetaObject::invokeMethod(
            this, [this] { bring(); }, Qt::QueuedConnection);
    }
}

void InView::bring() {
    isDue_ = false;
    QWidget* focus = QApplication::focusWidget();
    QScrollArea* page = pageAround(*form_);
    if (page == nullptr || !form_->isVisible() || focus == nullptr || !form_->isAncestorOf(focus)) {
        return;
    }
    reveal(*page, *form_);
    for (const QWidget* foot : feet_) {
        if (foot->isVisible()) {
            reveal(*page, *foot);
        }
    }
    reveal(*page, *withLabel(focus, form_));
}

}  // namespace midden::ui
