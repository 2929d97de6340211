// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <filesystem>
#include <thread>

#include "ui/history/loaded_batch.h"

namespace midden::ui {

/// Loads batches beside the window's own thread, through a reading connection of its own. One at a time; asking
/// again while one is under way drops that one's result.
class BatchLoader : public QObject {
    Q_OBJECT

  public:
    explicit BatchLoader(QObject* parent = nullptr);

    /// A book that lives in memory only is read on the spot.
    void load(const Logbook& logbook, BatchId batch);
    void cancel();
    bool isBusy() const { return wanted_.has_value(); }

  signals:
    void loaded(midden::ui::LoadedPtr batch);
    void failed(const QString& sentence);
    void busyChanged();
    void ran();  ///< said by the thread itself, heard in the window's

  private:
    struct Outcome {
        LoadedPtr batch;
        QString trouble;
    };
    struct Wish {
        std::filesystem::path file;
        BatchId batch{};
    };
    static Outcome run(const Wish& wish, const std::stop_token& stop);
    void start();
    void finish();
    void report(const Outcome& outcome);

    std::optional<Wish> wanted_;
    bool running_ = false;
    bool outdated_ = false;  ///< what runs is no longer what is wanted
    Outcome outcome_;        ///< written by the thread before `ran`, read in the window's after it
    std::jthread worker_;    ///< last, so that it has ended before anything it writes to goes
};

}  // namespace midden::ui
