// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/batch_loader.h"

#include <QTimer>

namespace midden::ui {

BatchLoader::BatchLoader(QObject* parent) : QObject{parent} {}

void BatchLoader::load(const Logbook& logbook, BatchId batch) {
    if (logbook.file().empty()) {
        emit loaded(loadBatch(logbook, batch, [](double) { return true; }));
        return;
    }
    wanted_ = Wish{logbook.file(), batch};
    aside_.drop();
    start();
    emit busyChanged();
}

void BatchLoader::cancel() {
    wanted_.reset();
    aside_.drop();
    emit busyChanged();
}

void BatchLoader::stepAside() {
    const bool isReading = aside_.isRunning() && aside_.share() < 1;
    if (isReading) {
        aside_.drop();
        QTimer::singleShot(0, this, &BatchLoader::start);
    }
}

Aside::Delivery BatchLoader::run(const Wish& wish, const Aside::Watch& watch, BatchLoader* whom) {
    try {
        const Logbook logbook = Logbook::open(wish.file, Logbook::Mode::readOnly);
        return [whom, batch = loadBatch(logbook, wish.batch, watch)] { whom->finish(batch, {}); };
    } catch (const std::exception& error) {
        return [whom, sentence = QString::fromUtf8(error.what())] { whom->finish({}, sentence); };
    }
}

void BatchLoader::start() {
    if (wanted_ && !aside_.isRunning()) {
        aside_.start([wish = *wanted_, this](const Aside::Watch& watch) { return run(wish, watch, this); });
    }
}

void BatchLoader::finish(const LoadedPtr& batch, const QString& trouble) {
    wanted_.reset();
    emit busyChanged();
    if (batch) {
        emit loaded(batch);
    } else {
        emit failed(trouble);
    }
}

}  // namespace midden::ui
