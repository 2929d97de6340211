// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/patience.h"

namespace midden::ui {

namespace {

constexpr int patience = 200;  // milliseconds before a wait is worth a word
constexpr int interval = 100;  // milliseconds between two looks

}  // namespace

Patience::Patience(QObject* parent) : QObject{parent} {
    patience_.setSingleShot(true);
    patience_.setInterval(patience);
    clock_.setInterval(interval);
    connect(&clock_, &QTimer::timeout, this, &Patience::look);
    connect(&patience_, &QTimer::timeout, this, [this] {
        emit look();
        clock_.start();
        emit ranOut();
    });
}

void Patience::begin() {
    if (!clock_.isActive()) {
        patience_.start();
    }
}

void Patience::end() {
    patience_.stop();
    clock_.stop();
}

}  // namespace midden::ui
