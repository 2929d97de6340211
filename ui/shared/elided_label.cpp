// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/elided_label.h"

#include <QEvent>
#include <QHelpEvent>
#include <QPainter>
#include <QStyle>
#include <QStyleOption>
#include <QToolTip>
#include <algorithm>

#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int leastLetters = 9;

}  // namespace

ElidedLabel::ElidedLabel(const QString& words, QWidget* parent, int letters)
    : QLabel{words, parent}, letters_{letters} {
    setTextFormat(Qt::PlainText);
}

QSize ElidedLabel::sizeHint() const {
    const QSize whole = QLabel::sizeHint();
    return {std::min(whole.width(), letters_ * fontMetrics().averageCharWidth()), whole.height()};
}

QSize ElidedLabel::minimumSizeHint() const {
    return {std::min(sizeHint().width(), leastLetters * fontMetrics().averageCharWidth()), sizeHint().height()};
}

QString ElidedLabel::shown() const {
    return fontMetrics().elidedText(text(), Qt::ElideRight, contentsRect().width());
}

bool ElidedLabel::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip && toolTip().isEmpty()) {
        const bool isCut = shown() != text();
        QToolTip::showText(static_cast<QHelpEvent*>(event)->globalPos(),
                           isCut ? words::onSeveralLines(text()) : QString{}, this);
        return true;
    }
    return QLabel::event(event);
}

void ElidedLabel::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter{this};
    style()->drawItemText(&painter, contentsRect(), static_cast<int>(alignment()), palette(), isEnabled(), shown(),
                          foregroundRole());
}

QString shortened(const QString& name, int letters) {
    if (name.size() <= letters) {
        return name;
    }
    const int tail = letters / 3;
    return name.left(letters - tail - 1).trimmed() + QChar{0x2026} + name.right(tail).trimmed();
}

}  // namespace midden::ui
