// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/batch_status_cache.h"

#include <algorithm>

#include "core/review/condensed_record.h"
#include "core/store/read/book_rules.h"

namespace midden::ui {

namespace {

/// The newest readings are looked at again with every change; corrections of this round then cost no more than a new
/// reading.
constexpr Seconds readAgain = hours(2);

/// A window that opens is painted first: the work would take a processor from it.
constexpr int untilPainted = 30;  // milliseconds
/// Nor is it begun anew between two numbers that are typed one after the other.
constexpr int untilAtRest = 500;

BinOutlook lookedAt(const BatchRecord& record, const StatusTerms& terms) {
    return outlookOf(record, stallsOf(record, terms.outlook.stalls, terms.materials), terms.outlook, terms.materials);
}

Instant newestReading(const BatchRecord& record) {
    Instant newest = record.batch.started.at;
    for (const Track& track : record.tracks) {
        newest = std::max(newest, track.samples.back().at);
    }
    return newest;
}

bool stoodIn(const Batch& batch, BinId bin) {
    return std::ranges::any_of(batch.stays, [&](const Stay& stay) { return stay.bin == bin; });
}

}  // namespace

BatchStatusCache::BatchStatusCache(const Logbook& logbook, QObject* parent) : QObject{parent}, logbook_{logbook} {
    rest_.setSingleShot(true);
    connect(&rest_, &QTimer::timeout, this, &BatchStatusCache::startNext);
    takeSettings();
    rest_.stop();  // nobody has typed yet
}

const BatchStatus* BatchStatusCache::of(BatchId batch) {
    if (!known_.contains(batch)) {
        want(batch);
    }
    const auto found = known_.find(batch);
    return found == known_.end() ? nullptr : &found->second.status;
}

const BinStatus* BatchStatusCache::status(BatchId batch) {
    const auto isThere = [&] {
        const auto found = known_.find(batch);
        return found != known_.end() && found->second.care ? &*found->second.care : nullptr;
    };
    if (!isThere()) {
        want(batch);
    }
    return isThere();
}

void BatchStatusCache::want(BatchId batch) {
    if (!failed_.contains(batch) && std::ranges::find(waiting_, batch) == waiting_.end()) {
        begin(batch);
    }
}

void BatchStatusCache::begin(BatchId batch) {
    try {
        const bool isShort = logbook_.file().empty() || !logbook_.isLongerThan(batch, mostAtOnce);
        if (isShort) {
            known_.insert_or_assign(batch, known(logbook_.record(batch), terms_));
            return;
        }
    } catch (const LogbookError& error) {
        fail(batch, QString::fromUtf8(error.what()));
        return;
    }
    if (std::ranges::find(waiting_, batch) == waiting_.end()) {
        waiting_.push_back(batch);
    }
    if (!rest_.isActive()) {
        rest_.start(untilPainted);
    }
}

BatchStatusCache::Known BatchStatusCache::known(BatchRecord record, const StatusTerms& terms) {
    const Instant newest = newestReading(record);
    const Instant cacheBoundary = newest - readAgain;
    BinOutlook outlook = lookedAt(record, terms);
    BinStatus care = statusOf(record, outlook, terms);
    BatchRecord head = condensed(record, cacheBoundary, terms.outlook, terms.materials);
    BatchRecord shown = condensed(std::move(record), newest + Seconds{1}, terms.outlook, terms.materials);
    auto fed = care.fed;
    return {std::move(head), cacheBoundary, {std::move(shown), std::move(outlook), std::move(fed)}, std::move(care)};
}

void BatchStatusCache::extend(BatchId batch, Known& entry) {
    entry.status.record = joined(entry.head, logbook_.recordSince(batch, entry.cacheBoundary));
    entry.status.outlook = lookedAt(entry.status.record, terms_);
    entry.care.reset();
}

BackgroundTask::Delivery BatchStatusCache::workOut(const std::filesystem::path& file, BatchId batch,
                                                   const StatusTerms& terms,
                                                   const BackgroundTask::TaskProgress& progress,
                                                   BatchStatusCache* whom) {
    try {
        const Logbook logbook = Logbook::open(file, Logbook::Mode::readOnly);
        auto record = logbook.record(batch, progress);
        if (!record) {
            return [] {};
        }
        auto entry = std::make_shared<Known>(known(*std::move(record), terms));
        return [whom, batch, entry] { whom->finish(batch, std::move(*entry)); };
    } catch (const std::exception& error) {
        return [whom, batch, sentence = QString::fromUtf8(error.what())] {
            whom->fail(batch, sentence);
            whom->moveOn();
        };
    }
}

void BatchStatusCache::startNext() {
    if (!isHeld_ && !waiting_.empty() && !task_.isRunning()) {
        task_.start([file = logbook_.file(), batch = waiting_.front(), terms = terms_,
                     this](const BackgroundTask::TaskProgress& progress) {
            return workOut(file, batch, terms, progress, this);
        });
    }
}

void BatchStatusCache::finish(BatchId batch, Known entry) {
    known_.insert_or_assign(batch, std::move(entry));
    moveOn();
}

void BatchStatusCache::moveOn() {
    waiting_.pop_front();
    startNext();
    emit workedOut();
}

void BatchStatusCache::fail(BatchId batch, const QString& sentence) {
    failed_.insert(batch);
    emit troubled(sentence);
}

void BatchStatusCache::releaseFile() {
    task_.drop();
    rest_.start(untilAtRest);
}

void BatchStatusCache::setHeld(bool isHeld) {
    isHeld_ = isHeld;
    releaseFile();
}

bool BatchStatusCache::isInvalid(const Known& entry, const Invalidation& invalidation) {
    const Batch& batch = entry.status.record.batch;
    if (invalidation.isEverything || invalidation.batch == batch.id) {
        return true;
    }
    if (invalidation.batch || (invalidation.bin && !stoodIn(batch, *invalidation.bin))) {
        return false;
    }
    const bool isBefore = invalidation.isReading && batch.startGiven && invalidation.from < batch.started.at;
    return !isBefore || !invalidation.bin;
}

void BatchStatusCache::take(const std::vector<Invalidation>& invalidations) {
    failed_.clear();
    for (auto& [batch, entry] : std::exchange(known_, {})) {
        const auto touchesThis = [&, &entry = entry](const Invalidation& invalidation) {
            return isInvalid(entry, invalidation);
        };
        const bool isTouched = std::ranges::any_of(invalidations, touchesThis);
        const bool isExtended =
            std::ranges::all_of(invalidations, [&, &entry = entry](const Invalidation& invalidation) {
                return !isInvalid(entry, invalidation) ||
                       (!invalidation.isEverything && invalidation.from >= entry.cacheBoundary);
            });
        // The layers of a fed batch follow from all its readings.
        if (!isExtended || (isTouched && entry.status.fed)) {
            begin(batch);
            continue;
        }
        if (isTouched) {
            extend(batch, entry);
        }
        known_.insert_or_assign(batch, std::move(entry));
    }
}

void BatchStatusCache::takeAnything() {
    releaseFile();
    takeSettings();
    take({{.isEverything = true}});
}

void BatchStatusCache::takeSettings() {
    std::vector<std::string> texts;
    for (const Setting* setting : allSettings()) {
        if (setting->restatesBatches) {
            texts.push_back(logbook_.setting(*setting));
        }
    }
    StatusTerms terms = statusTermsOf(logbook_);
    if (texts == termTexts_ && terms.outlook == terms_.outlook) {
        return;
    }
    termTexts_ = std::move(texts);
    terms_ = std::move(terms);
    releaseFile();
    take({{.isEverything = true}});
}

}  // namespace midden::ui
