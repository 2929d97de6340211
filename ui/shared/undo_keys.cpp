// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/undo_keys.h"

#include <QKeyEvent>
#include <QLineEdit>

#include "ui/shared/saved_line.h"

namespace midden::ui {

namespace {

bool isUndo(const QKeyEvent& key) {
    return key.matches(QKeySequence::Undo);
}

bool isRedo(const QKeyEvent& key) {
    return redoKeys().contains(QKeySequence{key.keyCombination()});
}

bool hasUnsavedTyping(const QLineEdit& line) {
    const auto* saved = qobject_cast<const SavedLine*>(&line);
    return saved != nullptr ? saved->isPending() : line.isUndoAvailable();
}

}  // namespace

QList<QKeySequence> redoKeys() {
    QList<QKeySequence> keys{QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Z}, QKeySequence{Qt::CTRL | Qt::Key_Y}};
    for (const QKeySequence& usual : QKeySequence::keyBindings(QKeySequence::Redo)) {
        if (!keys.contains(usual)) {
            keys.append(usual);
        }
    }
    return keys;
}

/// An accepted key stays with the line; one that is not becomes the menu's.
void UndoKeys::decide(QLineEdit& line, QKeyEvent& key) {
    const bool isOwn = isUndo(key) ? hasUnsavedTyping(line) : line.isRedoAvailable();
    key.setAccepted(isOwn);
    if (!isOwn && isUndo(key)) {
        forgetTyping(line);  // what is undone next in the book is also what is done again first
    }
}

bool UndoKeys::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::ShortcutOverride && event->type() != QEvent::KeyPress) {
        return false;
    }
    auto* line = qobject_cast<QLineEdit*>(watched);
    auto& key = *static_cast<QKeyEvent*>(event);
    if (line == nullptr || (!isUndo(key) && !isRedo(key))) {
        return false;
    }
    if (event->type() == QEvent::ShortcutOverride) {
        decide(*line, key);
        return true;
    }
    if (isRedo(key)) {
        line->redo();  // lines know only some of the keys
        return true;
    }
    return false;
}

}  // namespace midden::ui
