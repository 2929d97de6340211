// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/waiting_bar.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>

#include "ui/shared/progress_delay.h"

namespace midden::ui {

WaitingBar::WaitingBar(QString after, std::function<double()> share, QWidget* parent)
    : QWidget{parent},
      after_{std::move(after)},
      share_{std::move(share)},
      words_{new QLabel{this}},
      progress_{new QProgressBar{this}},
      progressDelay_{new ProgressDelay{this}} {
    setObjectName(QStringLiteral("waiting"));
    words_->setObjectName(QStringLiteral("waitingFor"));
    progress_->setObjectName(QStringLiteral("waitingProgress"));
    progress_->setTextVisible(false);
    progress_->setAccessibleName(tr("How far it has come"));
    auto* stop = new QPushButton{tr("Stop"), this};
    stop->setObjectName(QStringLiteral("stopWaiting"));
    auto* line = new QHBoxLayout{this};
    line->setContentsMargins({});
    line->setSpacing(8);
    line->addWidget(words_);
    line->addWidget(progress_, 1);
    line->addWidget(stop);
    connect(stop, &QPushButton::clicked, this, &WaitingBar::stopWanted);
    connect(progressDelay_, &ProgressDelay::look, this, &WaitingBar::look);
    connect(progressDelay_, &ProgressDelay::ranOut, this, [this] {
        show();
        emit appeared();
    });
    hide();
}

void WaitingBar::begin() {
    progressDelay_->begin();
}

void WaitingBar::end() {
    progressDelay_->end();
    hide();
}

void WaitingBar::look() {
    const double share = share_();
    const bool isRead = share >= 1;
    words_->setText(isRead ? after_ : tr("Reading the batch …"));
    progress_->setRange(0, isRead ? 0 : 100);
    progress_->setValue(static_cast<int>(share * 100));
}

}  // namespace midden::ui
