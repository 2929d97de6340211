// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/why_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>
#include <QVBoxLayout>

#include "ui/history/why.h"

namespace midden::ui {

WhyPanel::WhyPanel(QWidget* parent)
    : QWidget{parent},
      sentence_{new QLabel{this}},
      more_{new QToolButton{this}},
      close_{new QToolButton{this}},
      criterion_{new QLabel{this}} {
    sentence_->setObjectName(QStringLiteral("why"));
    for (QLabel* label : {sentence_, criterion_}) {
        label->setWordWrap(true);
    }
    more_->setText(tr("What it asks"));
    more_->setObjectName(QStringLiteral("criterionText"));
    more_->setCheckable(true);
    more_->setAutoRaise(true);
    close_->setText(tr("Close"));
    close_->setObjectName(QStringLiteral("criterionClose"));
    close_->setAutoRaise(true);
    auto* line = new QHBoxLayout;
    line->setSpacing(8);
    line->addWidget(sentence_, 1);
    line->addWidget(more_, 0, Qt::AlignTop);
    line->addWidget(close_, 0, Qt::AlignTop);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 4, 0, 4);
    column->setSpacing(4);
    column->addLayout(line);
    column->addWidget(criterion_);
    criterion_->hide();
    connect(more_, &QToolButton::toggled, criterion_, &QLabel::setVisible);
    connect(close_, &QToolButton::clicked, this, &WhyPanel::clear);
    hide();
}

void WhyPanel::explain(const Judgement& judgement, Instant at, const TimeZone& zone) {
    sentence_->setText(whySentence(judgement, at, zone));
    criterion_->setText(criterionWords(judgement.criterion));
    show();
}

void WhyPanel::clear() {
    more_->setChecked(false);
    hide();
    emit closed();
}

QString WhyPanel::sentence() const {
    return sentence_->text();
}

}  // namespace midden::ui
