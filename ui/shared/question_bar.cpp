// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/question_bar.h"

#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/shared/flow_layout.h"
#include "ui/shared/speak.h"
#include "ui/shared/tone.h"
#include "ui/shared/words.h"

namespace midden::ui {

QuestionBar::QuestionBar(QWidget* parent)
    : QWidget{parent}, words_{new QLabel{this}}, no_{new QPushButton{this}}, yes_{new QPushButton{this}} {
    words_->setObjectName(QStringLiteral("questionWords"));
    words_->setWordWrap(true);
    setTone(*words_, Tone::question);
    no_->setObjectName(QStringLiteral("questionNo"));
    no_->setAccessibleName(tr("No"));
    no_->setProperty("leading", true);
    yes_->setObjectName(QStringLiteral("questionYes"));
    yes_->setAccessibleName(tr("Yes"));
    auto* buttons = new FlowLayout{8};
    for (QPushButton* button : {no_, yes_}) {
        button->setAutoDefault(true);
        buttons->addWidget(button);
    }
    setTabOrder(no_, yes_);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(words_);
    column->addLayout(buttons);
    connect(no_, &QPushButton::clicked, this, &QuestionBar::declined);
    connect(yes_, &QPushButton::clicked, this, &QuestionBar::agreed);
    hide();
}

void QuestionBar::ask(const Question& question) {
    no_->setText(words::onButton(question.no));
    no_->setAccessibleName(question.no);
    no_->setAccessibleDescription(question.words);
    yes_->setText(words::onButton(question.yes));
    yes_->setAccessibleName(question.yes);
    show();
    speak(*words_, question.words);
    no_->setFocus(Qt::TabFocusReason);
}

void QuestionBar::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        emit declined();
    }
    // Nothing typed here is for the form behind.
}

}  // namespace midden::ui
