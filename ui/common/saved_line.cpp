// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/saved_line.h"

#include <QKeyEvent>

namespace midden::ui {

SavedLine::SavedLine(QWidget* parent) : QLineEdit{parent} {
    setAcceptDrops(false);  // what is dropped would stand there unsaved: the keyboard never leaves it
}

void SavedLine::setStored(const QString& text) {
    const bool keep = isPending();
    stored_ = text;
    if (!keep) {
        handedOver_ = text;
        setText(text);
    }
}

void SavedLine::setTaken() {
    stored_ = text();
    handedOver_ = stored_;
}

void SavedLine::handOver() {
    if (text() != handedOver_) {
        handedOver_ = text();
        emit typed(text());
    }
}

bool SavedLine::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride && !isPending()) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->matches(QKeySequence::Undo) || key->matches(QKeySequence::Redo)) {
            event->ignore();
            return true;
        }
    }
    return QLineEdit::event(event);
}

void SavedLine::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
            handOver();
            emit enterPressed();
            return;
        case Qt::Key_Escape:
            setText(stored_);
            selectAll();
            handOver();
            return;
        default:
            QLineEdit::keyPressEvent(event);
    }
}

void SavedLine::focusInEvent(QFocusEvent* event) {
    QLineEdit::focusInEvent(event);
    if (event->reason() != Qt::MouseFocusReason) {
        selectAll();
    }
    emit entered();
}

void SavedLine::focusOutEvent(QFocusEvent* event) {
    if (event->reason() != Qt::PopupFocusReason) {
        handOver();
    }
    QLineEdit::focusOutEvent(event);
}

}  // namespace midden::ui
