// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/reading_cell.h"

#include <QKeyEvent>
#include <QLocale>
#include <QRegularExpression>

namespace midden::ui {

namespace {

constexpr int decimalsShown = 1;  ///< that many stand to the right of the mark without moving it

}  // namespace

ReadingCell::ReadingCell(QWidget* parent) : SavedLine{parent} {
    setAlignment(Qt::AlignRight);
    setMaxLength(16);
    connect(this, &QLineEdit::textChanged, this, &ReadingCell::align);
    align();
}

void ReadingCell::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Up || event->key() == Qt::Key_Down) {
        handOver();
        emit moveOn(event->key() == Qt::Key_Up ? -1 : 1);
        return;
    }
    SavedLine::keyPressEvent(event);
}

/// Leaves room to the right for the decimals that were not typed.
void ReadingCell::align() {
    static const QRegularExpression fraction{QStringLiteral("[.,]\\d*")};
    const QString typed = fraction.match(text()).captured();
    const QString widest = QLocale{}.decimalPoint() + QString{decimalsShown, QLatin1Char{'0'}};
    const int room = fontMetrics().horizontalAdvance(widest) - fontMetrics().horizontalAdvance(typed);
    setTextMargins(0, 0, qMax(0, room), 0);
}

}  // namespace midden::ui
