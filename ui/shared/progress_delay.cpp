// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/progress_delay.h"

namespace midden::ui {

namespace {

constexpr int progressDelay = 200;  // milliseconds before a wait is worth a word
constexpr int interval = 100;       // milliseconds between two looks

}  // namespace

ProgressDelay::ProgressDelay(QObject* parent) : QObject{parent} {
    progressDelay_.setSingleShot(true);
    progressDelay_.setInterval(progressDelay);
    clock_.setInterval(interval);
    connect(&clock_, &QTimer::timeout, this, &ProgressDelay::look);
    connect(&progressDelay_, &QTimer::timeout, this, [this] {
        emit look();
        clock_.start();
        emit ranOut();
    });
}

void ProgressDelay::begin() {
    if (!clock_.isActive()) {
        progressDelay_.start();
    }
}

void ProgressDelay::end() {
    progressDelay_.stop();
    clock_.stop();
}

}  // namespace midden::ui
