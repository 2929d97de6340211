// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/outlooks.h"

#include <algorithm>

#include "core/logbook/book_rules.h"
#include "core/review/condensed_record.h"

namespace midden::ui {

namespace {

/// The newest readings are looked at again with every change; corrections of this round then cost no more than a new
/// reading.
constexpr Seconds readAgain = hours(2);

/// A window that opens is painted first: the work would take a processor from it.
constexpr int untilPainted = 30;  // milliseconds
/// Nor is it begun anew between two numbers that are typed one after the other.
constexpr int untilAtRest = 500;

BinOutlook lookedAt(const BatchRecord& record, const StandingTerms& terms) {
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

Outlooks::Outlooks(const Logbook& logbook, QObject* parent) : QObject{parent}, logbook_{logbook} {
    rest_.setSingleShot(true);
    connect(&rest_, &QTimer::timeout, this, &Outlooks::startNext);
    takeSettings();
    rest_.stop();  // nobody has typed yet
}

const Standing* Outlooks::of(BatchId batch) {
    if (!known_.contains(batch)) {
        want(batch);
    }
    const auto found = known_.find(batch);
    return found == known_.end() ? nullptr : &found->second.standing;
}

const BinStanding* Outlooks::standing(BatchId batch) {
    const auto isThere = [&] {
        const auto found = known_.find(batch);
        return found != known_.end() && found->second.care ? &*found->second.care : nullptr;
    };
    if (!isThere()) {
        want(batch);
    }
    return isThere();
}

void Outlooks::want(BatchId batch) {
    if (!failed_.contains(batch) && std::ranges::find(waiting_, batch) == waiting_.end()) {
        begin(batch);
    }
}

void Outlooks::begin(BatchId batch) {
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

Outlooks::Known Outlooks::known(BatchRecord record, const StandingTerms& terms) {
    const Instant newest = newestReading(record);
    const Instant seam = newest - readAgain;
    BinOutlook outlook = lookedAt(record, terms);
    BinStanding care = standingOf(record, outlook, terms);
    BatchRecord head = condensed(record, seam, terms.outlook, terms.materials);
    BatchRecord shown = condensed(std::move(record), newest + Seconds{1}, terms.outlook, terms.materials);
    return {std::move(head), seam, {std::move(shown), std::move(outlook)}, std::move(care)};
}

void Outlooks::extend(BatchId batch, Known& entry) {
    entry.standing.record = joined(entry.head, logbook_.recordSince(batch, entry.seam));
    entry.standing.outlook = lookedAt(entry.standing.record, terms_);
    entry.care.reset();
}

Aside::Delivery Outlooks::workOut(const std::filesystem::path& file, BatchId batch, const StandingTerms& terms,
                                  const Aside::Watch& watch, Outlooks* whom) {
    try {
        const Logbook logbook = Logbook::open(file, Logbook::Mode::readOnly);
        auto record = logbook.record(batch, watch);
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

void Outlooks::startNext() {
    if (!isHeld_ && !waiting_.empty() && !aside_.isRunning()) {
        aside_.start([file = logbook_.file(), batch = waiting_.front(), terms = terms_,
                      this](const Aside::Watch& watch) { return workOut(file, batch, terms, watch, this); });
    }
}

void Outlooks::finish(BatchId batch, Known entry) {
    known_.insert_or_assign(batch, std::move(entry));
    moveOn();
}

void Outlooks::moveOn() {
    waiting_.pop_front();
    startNext();
    emit workedOut();
}

void Outlooks::fail(BatchId batch, const QString& sentence) {
    failed_.insert(batch);
    emit troubled(sentence);
}

void Outlooks::stepAside() {
    aside_.drop();
    rest_.start(untilAtRest);
}

void Outlooks::setHeld(bool isHeld) {
    isHeld_ = isHeld;
    stepAside();
}

bool Outlooks::isTouched(const Known& entry, const Touch& touch) {
    const Batch& batch = entry.standing.record.batch;
    if (touch.isEverything || touch.batch == batch.id) {
        return true;
    }
    if (touch.batch || (touch.bin && !stoodIn(batch, *touch.bin))) {
        return false;
    }
    const bool isBefore = touch.isReading && batch.startGiven && touch.from < batch.started.at;
    return !isBefore || !touch.bin;
}

void Outlooks::take(const std::vector<Touch>& touches) {
    failed_.clear();
    for (auto& [batch, entry] : std::exchange(known_, {})) {
        const auto touchesThis = [&, &entry = entry](const Touch& touch) { return isTouched(entry, touch); };
        const auto first = std::ranges::find_if(touches, touchesThis);
        const bool isExtended = std::ranges::all_of(touches, [&, &entry = entry](const Touch& touch) {
            return !isTouched(entry, touch) || (!touch.isEverything && touch.from >= entry.seam);
        });
        if (!isExtended) {
            begin(batch);
            continue;
        }
        if (first != touches.end()) {
            extend(batch, entry);
        }
        known_.insert_or_assign(batch, std::move(entry));
    }
}

void Outlooks::takeAnything() {
    stepAside();
    takeSettings();
    take({{.isEverything = true}});
}

void Outlooks::takeSettings() {
    std::vector<std::string> texts;
    for (const auto name : {setting::inForce, setting::criteria, setting::cured, setting::curing, setting::probeCheck,
                            setting::targetTemperature, setting::targetHours, setting::materials}) {
        texts.push_back(logbook_.setting(name));
    }
    StandingTerms terms = standingTermsOf(logbook_);
    if (texts == termTexts_ && terms.outlook == terms_.outlook) {
        return;
    }
    termTexts_ = std::move(texts);
    terms_ = std::move(terms);
    stepAside();
    take({{.isEverything = true}});
}

}  // namespace midden::ui
