// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QTimer>
#include <deque>
#include <map>
#include <set>
#include <vector>

#include "core/store/read/bin_statuses.h"
#include "ui/shared/background_task.h"

namespace midden::ui {

/// How a batch stands.
struct BatchStatus {
    BatchRecord record;  ///< fit for outlooks and small pictures only: see core/review/condensed_record.h
    BinOutlook outlook;
    std::optional<FedStatus> fed;  ///< of a fed batch
};

/// What an edit may have changed: the readings of a bin (none: the air of the whole site), or one batch, from an
/// instant on.
struct Invalidation {
    std::optional<BinId> bin;
    std::optional<BatchId> batch;
    Instant from;
    bool isReading = false;
    bool isEverything = false;
};
/// What an edit and the edit that takes it back speak of.
std::vector<Invalidation> invalidationsOf(const Edit& edit, const Edit& inverse);

/// The one place that knows how the batches stand. Small batches are worked out at once, long ones beside the window's
/// own thread; a change costs the batch it touches, and no more than its latest readings where that is all it touches.
/// What is given out is never stale: while a batch is being worked out there is nothing to be had of it.
class BatchStatusCache : public QObject {
    Q_OBJECT

  public:
    /// More readings than this are not worked through while somebody waits: 2 ms or so. No paper log has as many.
    static constexpr std::int64_t mostAtOnce = 2'000;

    explicit BatchStatusCache(const Logbook& logbook, QObject* parent = nullptr);

    /// Null while it is being worked out; `workedOut` is said when it is there. Asking starts the work.
    const BatchStatus* of(BatchId batch);
    /// What is to be done for it, certificates left out: rules in force are judged over every reading, so that a new
    /// one in a long batch has this worked out again.
    const BinStatus* status(BatchId batch);
    const HoldTarget& target() const { return terms_.outlook.stalls.target; }
    bool isBusy() const { return !waiting_.empty(); }

    void take(const std::vector<Invalidation>& invalidations);
    /// Another program wrote to the file: anything may be different.
    void takeAnything();
    /// Target or materials may be others now.
    void takeSettings();
    /// Lets go of the file, so that it can be written to; goes on as soon as the window is at rest.
    void releaseFile();
    /// While held, nothing is worked out beside the window.
    void setHeld(bool isHeld);

  signals:
    void workedOut();
    void troubled(const QString& sentence);

  private:
    struct Known {
        BatchRecord head;  ///< condensed, up to `cacheBoundary`
        Instant cacheBoundary;
        BatchStatus status;
        std::optional<BinStatus> care;
    };
    static Known known(BatchRecord record, const StatusTerms& terms);
    static BackgroundTask::Delivery workOut(const std::filesystem::path& file, BatchId batch, const StatusTerms& terms,
                                            const BackgroundTask::TaskProgress& progress, BatchStatusCache* whom);

    void want(BatchId batch);
    void begin(BatchId batch);
    void extend(BatchId batch, Known& entry);
    void startNext();
    void finish(BatchId batch, Known entry);
    void moveOn();
    void fail(BatchId batch, const QString& sentence);
    static bool isInvalid(const Known& entry, const Invalidation& invalidation);

    const Logbook& logbook_;
    StatusTerms terms_;
    std::vector<std::string> termTexts_;  ///< the settings that `terms_` were read from
    std::map<BatchId, Known> known_;
    std::deque<BatchId> waiting_;  ///< the first of them is being worked out
    std::set<BatchId> failed_;     ///< the person has been told why
    bool isHeld_ = false;
    QTimer rest_;  ///< runs out when the window has been at rest for long enough
    BackgroundTask task_;
};

}  // namespace midden::ui
