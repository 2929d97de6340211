// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <filesystem>

#include "ui/history/loaded_batch.h"
#include "ui/shared/background_task.h"

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
    /// How much of the batch has been read, 0 to 1; at 1 it is being judged.
    double share() const { return task_.share(); }
    /// Lets go of the file, so that it can be written to; begins again as soon as the window is at rest.
    void releaseFile();

  signals:
    void loaded(midden::ui::LoadedPtr batch);
    void failed(const QString& sentence);
    void busyChanged();

  private:
    struct Wish {
        std::filesystem::path file;
        BatchId batch{};
    };
    static BackgroundTask::Delivery run(const Wish& wish, const BackgroundTask::TaskProgress& progress,
                                        BatchLoader* whom);
    void start();
    void finish(const LoadedPtr& batch, const QString& trouble);

    std::optional<Wish> wanted_;
    BackgroundTask task_;
};

}  // namespace midden::ui
