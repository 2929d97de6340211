// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QKeySequence>
#include <QList>
#include <QObject>

class QKeyEvent;
class QLineEdit;

namespace midden::ui {

/// All keys that do again what was undone.
QList<QKeySequence> redoKeys();

/// Whose the keys of Undo and Redo are, for every line of the program: the line's own while something in it is typed
/// and not saved, else those of the book's last change. Installed on the application.
class UndoKeys : public QObject {
    Q_OBJECT

  public:
    using QObject::QObject;

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    static void decide(QLineEdit& line, QKeyEvent& key);
};

}  // namespace midden::ui
