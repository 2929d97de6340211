// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/withdraw_bar.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "ui/shared/deliberate.h"
#include "ui/shared/named_button.h"

namespace midden::ui {

WithdrawBar::WithdrawBar(QWidget* parent)
    : QWidget{parent},
      question_{new QLabel{this}},
      why_{new QLineEdit{this}},
      withdraw_{namedButton(tr("Withdraw"), "withdraw", this)},
      keep_{namedButton(tr("Keep"), "keep", this)} {
    question_->setWordWrap(true);
    why_->setObjectName(QStringLiteral("withdrawWhy"));
    why_->setPlaceholderText(tr("why, if you like"));
    why_->setAccessibleName(tr("Why, if you like"));
    wantDeliberatePress(*withdraw_);
    auto* line = new QHBoxLayout{this};
    line->setContentsMargins(0, 4, 0, 4);
    line->setSpacing(8);
    line->addWidget(question_, 2);
    line->addWidget(why_, 1);
    line->addWidget(withdraw_);
    line->addWidget(keep_);
    connect(why_, &QLineEdit::returnPressed, withdraw_, [this] { withdraw_->setFocus(Qt::TabFocusReason); });
    connect(withdraw_, &QPushButton::clicked, this, [this] { close(true); });
    connect(keep_, &QPushButton::clicked, this, [this] { close(false); });
    hide();
}

void WithdrawBar::ask(const QString& entry) {
    question_->setText(tr("Withdraw %1? It stays in the book, struck through.").arg(entry));
    why_->setAccessibleDescription(question_->text());
    why_->setText({});  // unlike clear(), with nothing to undo
    show();
    why_->setFocus();
}

void WithdrawBar::close(bool withdraw) {
    hide();
    if (withdraw) {
        emit withdrawn(why_->text());
    } else {
        emit kept();
    }
}

void WithdrawBar::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        close(false);
        return;
    }
    QWidget::keyPressEvent(event);
}

}  // namespace midden::ui
