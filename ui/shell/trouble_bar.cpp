// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/trouble_bar.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/shared/flow_layout.h"
#include "ui/shared/speak.h"

namespace midden::ui {

TroubleBar::TroubleBar(QWidget* parent)
    : QWidget{parent}, words_{new QLabel{this}}, row_{new FlowLayout{8}}, dismiss_{new QPushButton{this}} {
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
    auto* top = new QHBoxLayout;
    top->setSpacing(16);
    top->addWidget(words_, 1);
    top->addWidget(dismiss_, 0, Qt::AlignTop);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(16, 8, 16, 8);
    column->setSpacing(8);
    column->addLayout(top);
    column->addLayout(row_);
    connect(dismiss_, &QPushButton::clicked, this, &QWidget::hide);
    hide();
}

void TroubleBar::say(const QString& sentence) {
    for (QPushButton* offer : offers_) {
        offer->hide();
        offer->deleteLater();  // it may be the one that is being pressed
    }
    offers_.clear();
    words_->setText(sentence);
    show();
    readOut(*words_);
}

void TroubleBar::offer(const char* name, const QString& words, std::function<void()> act) {
    auto* offer = new QPushButton{words, this};
    offer->setObjectName(QLatin1String{name});
    offer->setAccessibleName(QString{words}.remove(QLatin1Char{'&'}));
    offer->setAutoDefault(true);
    // Queued: what it does may open another book, and say something else here.
    connect(offer, &QPushButton::clicked, this, std::move(act), Qt::QueuedConnection);
    row_->addWidget(offer);
    setTabOrder(offers_.isEmpty() ? dismiss_ : offers_.back(), offer);
    offer->show();
    offers_ << offer;
}

QString TroubleBar::sentence() const {
    return isHidden() ? QString{} : words_->text();
}

}  // namespace midden::ui
