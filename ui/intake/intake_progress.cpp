// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/intake/intake_progress.h"

#include <QLabel>
#include <QProgressBar>
#include <QTimer>
#include <QVBoxLayout>

namespace midden::ui {

namespace {

constexpr int patience = 200;  // milliseconds before a wait is worth a word
constexpr int interval = 100;  // milliseconds between two looks
constexpr int steps = 1'000;

}  // namespace

IntakeProgress::IntakeProgress(std::function<double()> share, QWidget* parent)
    : QWidget{parent},
      share_{std::move(share)},
      doing_{new QLabel{this}},
      bar_{new QProgressBar{this}},
      patience_{new QTimer{this}},
      clock_{new QTimer{this}} {
    doing_->setObjectName(QStringLiteral("intakeDoing"));
    bar_->setObjectName(QStringLiteral("intakeProgress"));
    bar_->setTextVisible(false);
    bar_->setAccessibleName(tr("How far it has come"));
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    column->addWidget(doing_);
    column->addWidget(bar_);
    patience_->setSingleShot(true);
    patience_->setInterval(patience);
    clock_->setInterval(interval);
    connect(clock_, &QTimer::timeout, this, &IntakeProgress::look);
    connect(patience_, &QTimer::timeout, this, [this] {
        look();
        show();
        clock_->start();
        emit appeared();
    });
    hide();
}

void IntakeProgress::begin(Words words) {
    words_ = std::move(words);
    patience_->start();
}

void IntakeProgress::end() {
    patience_->stop();
    clock_->stop();
    hide();
}

void IntakeProgress::look() {
    const double share = share_();
    doing_->setText(words_(share));
    bar_->setRange(0, share > 0 && share < 1 ? steps : 0);
    bar_->setValue(static_cast<int>(share * steps));
}

}  // namespace midden::ui
