// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/saved_line.h"

#include <QKeyEvent>
#include <QPointer>

namespace midden::ui {

namespace {

struct Caret {
    explicit Caret(const QLineEdit& line)
        : at{line.cursorPosition()}, start{line.selectionStart()}, length{line.selectionLength()} {}
    void putInto(QLineEdit& line) const {
        line.setCursorPosition(at);
        if (length > 0) {
            at == start ? line.setSelection(start + length, -length) : line.setSelection(start, length);
        }
    }

    int at;
    int start;  ///< of what is selected
    int length;
};

}  // namespace

void forgetTyping(QLineEdit& line) {
    const Caret caret{line};
    line.setText(line.text());
    caret.putInto(line);
}

SavedLine::SavedLine(QWidget* parent) : QLineEdit{parent} {
    setAcceptDrops(false);  // what is dropped would stand there unsaved: the keyboard never leaves it
}

void SavedLine::setStored(const QString& text) {
    const bool keep = isPending();
    stored_ = text;
    if (!keep) {
        handedOver_ = text;
        this->text() == text ? forgetTyping(*this) : setText(text);
    }
}

void SavedLine::giveAway(const std::function<bool(const QString&)>& take) {
    const QPointer<SavedLine> stillThere{this};
    const QString given = text();
    setText({});  // first, for taking it may put another line in the place of this one
    setTaken();
    if (!take(given) && stillThere) {
        setText(given);
        handedOver_ = stored_;
    }
}

void SavedLine::goOnFrom(const SavedLine& other) {
    setText(other.text());
    stored_ = other.stored_;
    handedOver_ = other.handedOver_;
    Caret{other}.putInto(*this);
}

void SavedLine::setTaken() {
    stored_ = text();
    handedOver_ = stored_;
    forgetTyping(*this);
}

void SavedLine::handOver() {
    if (text() != handedOver_) {
        handedOver_ = text();
        emit typed(text());
    }
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
