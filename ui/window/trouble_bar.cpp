// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/trouble_bar.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace midden::ui {

TroubleBar::TroubleBar(QWidget* parent) : QWidget{parent}, words_{new QLabel{this}}, dismiss_{new QPushButton{this}} {
    setObjectName(QStringLiteral("trouble"));
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::AlternateBase);
    words_->setObjectName(QStringLiteral("troubleWords"));
    words_->setWordWrap(true);
    words_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    words_->setFocusPolicy(Qt::NoFocus);
    dismiss_->setText(tr("Hi&de this"));
    dismiss_->setObjectName(QStringLiteral("troubleDismiss"));
    dismiss_->setAccessibleName(tr("Hide the message"));
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(16, 8, 16, 8);
    row->setSpacing(16);
    row->addWidget(words_, 1);
    row->addWidget(dismiss_);
    connect(dismiss_, &QPushButton::clicked, this, &QWidget::hide);
    hide();
}

void TroubleBar::say(const QString& sentence) {
    words_->setText(sentence);
    words_->setAccessibleName(sentence);
    show();
}

QString TroubleBar::sentence() const {
    return isHidden() ? QString{} : words_->text();
}

}  // namespace midden::ui
