// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/stray_input.h"

#include <QAbstractSlider>
#include <QAbstractSpinBox>
#include <QApplication>
#include <QComboBox>
#include <QDropEvent>
#include <QLineEdit>
#include <QMimeData>
#include <QScrollBar>

namespace midden::ui {

namespace {

bool changesUnderTheWheel(QObject* widget) {
    return qobject_cast<QComboBox*>(widget) != nullptr || qobject_cast<QAbstractSpinBox*>(widget) != nullptr ||
           (qobject_cast<QAbstractSlider*>(widget) != nullptr && qobject_cast<QScrollBar*>(widget) == nullptr);
}

bool isFileOnALine(QObject* widget, const QEvent& event) {
    return qobject_cast<QLineEdit*>(widget) != nullptr && static_cast<const QDropEvent&>(event).mimeData()->hasUrls();
}

bool isStray(QObject* widget, const QEvent& event) {
    switch (event.type()) {
        case QEvent::Wheel:
            return changesUnderTheWheel(widget);
        case QEvent::DragEnter:
        case QEvent::DragMove:
        case QEvent::Drop:
            return isFileOnALine(widget, event);
        default:
            return false;
    }
}

}  // namespace

StrayInput::StrayInput(QObject* owner) : QObject{owner} {
    qApp->installEventFilter(this);
}

bool StrayInput::eventFilter(QObject* watched, QEvent* event) {
    if (isStray(watched, *event)) {
        event->ignore();  // it goes on to the widgets behind
        return true;
    }
    return QObject::eventFilter(watched, event);
}

}  // namespace midden::ui
