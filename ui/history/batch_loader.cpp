// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/batch_loader.h"

#include <utility>

namespace midden::ui {

BatchLoader::BatchLoader(QObject* parent) : QObject{parent} {
    connect(this, &BatchLoader::ran, this, &BatchLoader::finish, Qt::QueuedConnection);
}

void BatchLoader::load(const Logbook& logbook, BatchId batch) {
    if (logbook.file().empty()) {
        report({loadBatch(logbook, batch, {}), {}});
        return;
    }
    wanted_ = Wish{logbook.file(), batch};
    outdated_ = running_;
    emit busyChanged();
    if (running_) {
        worker_.request_stop();
    } else {
        start();
    }
}

void BatchLoader::cancel() {
    wanted_.reset();
    outdated_ = running_;
    worker_.request_stop();
    emit busyChanged();
}

BatchLoader::Outcome BatchLoader::run(const Wish& wish, const std::stop_token& stop) {
    try {
        const Logbook logbook = Logbook::open(wish.file, Logbook::Mode::readOnly);
        return {loadBatch(logbook, wish.batch, stop), {}};
    } catch (const std::exception& error) {
        return {nullptr, QString::fromUtf8(error.what())};
    }
}

void BatchLoader::start() {
    running_ = true;
    outdated_ = false;
    // The thread ends with its last line, so replacing it here never waits.
    worker_ = std::jthread{[this, wish = *wanted_](const std::stop_token& stop) {
        outcome_ = run(wish, stop);
        emit ran();
    }};
}

void BatchLoader::finish() {
    running_ = false;
    const Outcome outcome = std::exchange(outcome_, {});
    if (outdated_) {
        outdated_ = false;
        if (wanted_) {
            start();
        }
        return;
    }
    wanted_.reset();
    emit busyChanged();
    report(outcome);
}

void BatchLoader::report(const Outcome& outcome) {
    if (outcome.batch) {
        emit loaded(outcome.batch);
    } else if (!outcome.trouble.isEmpty()) {
        emit failed(outcome.trouble);
    }
}

}  // namespace midden::ui
