// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QTimer>
#include <QVBoxLayout>

#include "ui/history/amend_delegate.h"
#include "ui/shared/speak.h"
#include "ui/shared/tone.h"

namespace midden::ui {

AmendEditor::AmendEditor(QWidget* parent)
    : QFrame{parent},
      value_{new QLineEdit{this}},
      why_{new QLineEdit{this}},
      problem_{new QLabel{this}},
      soon_{new QTimer{this}} {
    soon_->setSingleShot(true);
    connect(soon_, &QTimer::timeout, this, &AmendEditor::leaveIfGone);
    setFrameShape(QFrame::StyledPanel);
    setAutoFillBackground(true);
    setFocusPolicy(Qt::StrongFocus);
    setFocusProxy(value_);
    setAccessibleName(tr("Correct this entry"));
    value_->setObjectName(QStringLiteral("amendValue"));
    value_->setAccessibleName(tr("New value"));
    why_->setObjectName(QStringLiteral("amendWhy"));
    why_->setAccessibleName(tr("Why, if you like"));
    why_->setPlaceholderText(tr("why, if you like"));
    problem_->setObjectName(QStringLiteral("amendProblem"));
    problem_->setWordWrap(true);
    problem_->hide();
    setTone(*problem_, Tone::question);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(4, 4, 4, 4);
    column->setSpacing(4);
    column->addWidget(value_);
    column->addWidget(why_);
    column->addWidget(problem_);
    for (QLineEdit* line : {value_, why_}) {
        line->installEventFilter(this);
    }
}

QString AmendEditor::value() const {
    return value_->text();
}

QString AmendEditor::why() const {
    return why_->text();
}

void AmendEditor::setValue(const QString& value) {
    before_ = value;
    value_->setText(value);
    value_->selectAll();
}

bool AmendEditor::isTyping() const {
    return value_->text() != before_ || !why_->text().isEmpty();
}

void AmendEditor::refuse(const QString& sentence) {
    speak(*problem_, sentence);
    value_->setAccessibleDescription(sentence);
    value_->setFocus();
    value_->selectAll();
    resize(width(), sizeHint().height() + problem_->heightForWidth(width() - 12));
}

/// The keyboard may only have gone from one line to the other.
void AmendEditor::leaveIfGone() {
    const QWidget* now = QApplication::focusWidget();
    const bool stillHere = now != nullptr && isAncestorOf(now);
    const bool windowLeft = now == nullptr || now->window() != window();
    if (!stillHere && !windowLeft) {
        emit done();
    }
}

bool AmendEditor::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::FocusOut) {
        soon_->start();
    }
    if (event->type() == QEvent::KeyPress) {
        // Eaten here, for a line would hand Enter on to the list, which opens an editor on it.
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Escape) {
            emit givenUp();
            return true;
        }
        if (key == Qt::Key_Return || key == Qt::Key_Enter) {
            emit done();
            return true;
        }
    }
    return QFrame::eventFilter(watched, event);
}

}  // namespace midden::ui
