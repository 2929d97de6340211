// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/kept_typing.h"

#include <QWidget>
#include <algorithm>

#include "ui/shared/saved_line.h"

namespace midden::ui {

namespace {

/// Lines a person can type in, in the order they were made.
QList<SavedLine*> linesIn(const QWidget& body) {
    QList<SavedLine*> lines = body.findChildren<SavedLine*>();
    lines.removeIf([](const SavedLine* line) { return line->isReadOnly(); });
    return lines;
}

/// How many of the lines stand before that widget.
qsizetype linesBefore(const QWidget& body, const QWidget* widget) {
    const QList<QWidget*> all = body.findChildren<QWidget*>();
    const auto here = std::ranges::find(all, widget);
    return std::count_if(all.begin(), here, [](const QWidget* one) {
        const auto* line = qobject_cast<const SavedLine*>(one);
        return line != nullptr && !line->isReadOnly();
    });
}

}  // namespace

KeptTyping::KeptTyping(QWidget* old) : old_{old} {
    if (old == nullptr) {
        return;
    }
    QWidget* focus = old->window()->focusWidget();
    focus_ = focus != nullptr && old->isAncestorOf(focus) ? focus : nullptr;
    for (SavedLine* line : old->findChildren<SavedLine*>()) {
        line->blockSignals(true);
    }
}

bool KeptTyping::goOnIn(QWidget& fresh) const {
    const auto lines = old_ == nullptr ? QList<SavedLine*>{} : old_->findChildren<SavedLine*>();
    for (const SavedLine* line : lines) {
        if (auto* successor = fresh.findChild<SavedLine*>(line->objectName())) {
            successor->goOnFrom(*line);
        }
    }
    if (focus_ == nullptr) {
        return true;
    }
    auto* successor = fresh.findChild<QWidget*>(focus_->objectName());
    if (successor == nullptr) {
        return false;
    }
    successor->setFocus(Qt::OtherFocusReason);
    const auto* line = qobject_cast<const SavedLine*>(focus_.data());
    if (auto* goesOn = qobject_cast<SavedLine*>(successor); line != nullptr && goesOn != nullptr) {
        goesOn->goOnFrom(*line);  // getting the keyboard selects the text
    }
    return true;
}

void KeptTyping::giveToNextLine(QWidget& fresh) const {
    const QList<SavedLine*> lines = linesIn(fresh);
    if (focus_ != nullptr && !lines.isEmpty()) {
        lines.at(std::min(linesBefore(*old_, focus_), lines.size() - 1))->setFocus(Qt::OtherFocusReason);
    }
}

}  // namespace midden::ui
