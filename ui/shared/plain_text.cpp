// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/plain_text.h"

#include <QApplication>
#include <QEvent>
#include <QLabel>

namespace midden::ui {

namespace {

/// Sees every label before it is shown for the first time.
class PlainLabels : public QObject {
  public:
    using QObject::QObject;

    bool eventFilter(QObject* watched, QEvent* event) override {
        if (event->type() == QEvent::Polish) {
            auto* label = qobject_cast<QLabel*>(watched);
            if (label != nullptr && label->textFormat() == Qt::AutoText) {
                label->setTextFormat(Qt::PlainText);
            }
        }
        return false;
    }
};

}  // namespace

void showTextAsText(QApplication& application) {
    application.installEventFilter(new PlainLabels{&application});
}

}  // namespace midden::ui
