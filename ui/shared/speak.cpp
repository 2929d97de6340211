// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/speak.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QLabel>

namespace midden::ui {

namespace {

constexpr auto speaks = "speaks";

/// Its name is always what it says now.
class SpokenLine : public QAccessibleWidget {
  public:
    explicit SpokenLine(QLabel* line) : QAccessibleWidget{line, QAccessible::Notification} {}
    QString text(QAccessible::Text kind) const override {
        return kind == QAccessible::Name ? qobject_cast<QLabel*>(object())->text() : QAccessibleWidget::text(kind);
    }
};

/// Screen readers under AT-SPI read out a notification that is shown, those of other systems what raises an alert.
QAccessibleInterface* spokenLine(const QString& /*kind*/, QObject* object) {
    auto* label = qobject_cast<QLabel*>(object);
    return label != nullptr && label->property(speaks).toBool() ? new SpokenLine{label} : nullptr;
}

/// From now on; what was known of it before was an ordinary label.
void makeSpoken(QLabel& line) {
    QAccessible::installFactory(spokenLine);  // a second time does nothing
    line.setProperty(speaks, true);
    QAccessible::deleteAccessibleInterface(QAccessible::uniqueId(QAccessible::queryAccessibleInterface(&line)));
}

void tell(QLabel& line, QAccessible::Event what) {
    QAccessibleEvent event{&line, what};
    // Qt itself asks whoever installed a handler only while a screen reader runs.
    const QAccessible::UpdateHandler handler = QAccessible::installUpdateHandler(nullptr);
    QAccessible::installUpdateHandler(handler);
    if (handler != nullptr) {
        handler(&event);
    } else {
        QAccessible::updateAccessibility(&event);
    }
}

}  // namespace

void readOut(QLabel& line) {
    if (!line.property(speaks).toBool()) {
        makeSpoken(line);
    }
    tell(line, QAccessible::ObjectShow);
    tell(line, QAccessible::NameChanged);
    tell(line, QAccessible::Alert);
}

void speak(QLabel& line, const QString& words) {
    line.setText(words);
    line.setVisible(!words.isEmpty());
    if (!words.isEmpty()) {
        readOut(line);
    }
}

}  // namespace midden::ui
