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
    task_.drop();
    start();
    emit busyChanged();
}

void BatchLoader::cancel() {
    wanted_.reset();
    task_.drop();
    emit busyChanged();
}

void BatchLoader::releaseFile() {
    const bool isReading = task_.isRunning() && task_.share() < 1;
    if (isReading) {
        task_.drop();
        QTimer::singleShot(0, this, &BatchLoader::start);
    }
}

BackgroundTask::Delivery BatchLoader::run(const Wish& wish, const BackgroundTask::TaskProgress& progress,
                                          BatchLoader* whom) {
    try {
        const Logbook logbook = Logbook::open(wish.file, Logbook::Mode::readOnly);
        return [whom, batch = loadBatch(logbook, wish.batch, progress)] { whom->finish(batch, {}); };
    } catch (const std::exception& error) {
        return [whom, sentence = QString::fromUtf8(error.what())] { whom->finish({}, sentence); };
    }
}

void BatchLoader::start() {
    if (wanted_ && !task_.isRunning()) {
        task_.start([wish = *wanted_, this](const BackgroundTask::TaskProgress& progress) {
            return run(wish, progress, this);
        });
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
