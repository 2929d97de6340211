// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/deliberate.h"

#include <QKeyEvent>
#include <QPushButton>

namespace midden::ui {

namespace {

/// Takes the repeats of a held key away.
class RepeatsTaken : public QObject {
  public:
    using QObject::QObject;

    bool eventFilter(QObject* watched, QEvent* event) override {
        const bool isKey = event->type() == QEvent::KeyPress || event->type() == QEvent::KeyRelease;
        if (isKey && static_cast<QKeyEvent*>(event)->isAutoRepeat()) {
            const int key = static_cast<QKeyEvent*>(event)->key();
            return key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Space;
        }
        return QObject::eventFilter(watched, event);
    }
};

}  // namespace

void wantDeliberatePress(QPushButton& button) {
    button.installEventFilter(new RepeatsTaken{&button});
}

}  // namespace midden::ui
