// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/saved_line.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QPointer>
#include <algorithm>

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

void SavedLine::setUsualWidth(int width) {
    usualWidth_ = width;
    setMinimumWidth(width / 2);
    setMaximumWidth(width);
    setSizePolicy(QSizePolicy::Preferred, sizePolicy().verticalPolicy());
}

QSize SavedLine::sizeHint() const {
    const QSize usual = QLineEdit::sizeHint();
    return {usualWidth_.value_or(usual.width()), usual.height()};
}

void SavedLine::setStored(const QString& text) {
    const bool keep = isPending();
    stored_ = text;
    if (!keep) {
        wasHandedOver_ = false;
        handedOver_ = text;
        this->text() == text ? forgetTyping(*this) : setText(text);
        if (!hasFocus()) {
            setCursorPosition(0);  // of what is too long its beginning is seen
        }
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
        wasHandedOver_ = true;
    }
}

void SavedLine::goOnFrom(const SavedLine& other) {
    setText(other.text());
    stored_ = other.stored_;
    handedOver_ = other.handedOver_;
    wasHandedOver_ = other.wasHandedOver_;
    Caret{other}.putInto(*this);
}

void SavedLine::setTaken() {
    wasHandedOver_ = false;
    stored_ = text();
    handedOver_ = stored_;
    forgetTyping(*this);
}

void SavedLine::handOver() {
    if (text() != handedOver_) {
        handedOver_ = text();
        wasHandedOver_ = true;
        QCoreApplication::postEvent(window(), new QEvent{lineHandedOver});  // this line may be gone by then
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
            if (!isPending()) {
                event->ignore();  // nothing to take back here: it may close what is open around it
                selectAll();
                return;
            }
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

int refusedIn(const QWidget& window) {
    const auto lines = window.findChildren<const SavedLine*>();
    return static_cast<int>(std::ranges::count_if(lines, &SavedLine::isRefused));
}

}  // namespace midden::ui
