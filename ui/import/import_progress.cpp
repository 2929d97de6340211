// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/import/import_progress.h"

#include <QLabel>
#include <QProgressBar>
#include <QVBoxLayout>

#include "ui/shared/progress_delay.h"

namespace midden::ui {

namespace {

constexpr int steps = 1'000;

}  // namespace

ImportProgressLine::ImportProgressLine(std::function<double()> share, QWidget* parent)
    : QWidget{parent},
      share_{std::move(share)},
      doing_{new QLabel{this}},
      bar_{new QProgressBar{this}},
      progressDelay_{new ProgressDelay{this}} {
    doing_->setObjectName(QStringLiteral("intakeDoing"));
    bar_->setObjectName(QStringLiteral("intakeProgress"));
    bar_->setTextVisible(false);
    bar_->setAccessibleName(tr("How far it has come"));
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    column->addWidget(doing_);
    column->addWidget(bar_);
    connect(progressDelay_, &ProgressDelay::look, this, &ImportProgressLine::look);
    connect(progressDelay_, &ProgressDelay::ranOut, this, [this] {
        show();
        emit appeared();
    });
    hide();
}

void ImportProgressLine::begin(Words words) {
    words_ = std::move(words);
    progressDelay_->begin();
}

void ImportProgressLine::end() {
    progressDelay_->end();
    hide();
}

void ImportProgressLine::look() {
    const double share = share_();
    doing_->setText(words_(share));
    bar_->setRange(0, share > 0 && share < 1 ? steps : 0);
    bar_->setValue(static_cast<int>(share * steps));
}

}  // namespace midden::ui
