// SPDX-License-Identifier: GPL-3.0-or-later
// Which line is which, before and after the book has changed.
#include <QCoreApplication>
#include <algorithm>
#include <tuple>

#include "ui/chart/entry_words.h"
#include "ui/history/entries_model.h"
#include "ui/shared/book.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

bool isSame(const Amendment& a, const Amendment& b) {
    return std::tie(a.amended, a.was, a.became) == std::tie(b.amended, b.was, b.became);
}

QString say(const char* words) {
    return QCoreApplication::translate("Entries", words);
}

QString whatIs(const Reading& reading) {
    return say("the reading %1").arg(words::written(reading.written));
}

QString whatIs(const Addition& addition) {
    return say("the addition “%1”").arg(words::addition(addition));
}

QString whatIs(const Aeration& aeration) {
    return say("the entry “%1”").arg(words::kindOf(aeration.kind));
}

QString whatIs(const Observation& observation) {
    const bool isNote = observation.kind == ObservationKind::note && !observation.note.empty();
    return isNote ? say("the note “%1”").arg(words::text(observation.note))
                  : say("the entry “%1”").arg(words::observation(observation));
}

QString whatIs(const Harvest& harvest) {
    return say("the harvest “%1”").arg(words::harvest(harvest));
}

QString whatIs(const Amendment& amendment) {
    return say("the amendment of “%1”").arg(words::text(amendment.subject));
}

}  // namespace

std::optional<BatchId> EntriesModel::batch() const {
    return batch_ ? std::optional{batch_->record.batch.id} : std::nullopt;
}

const Amendment* EntriesModel::newestOf(const EntryKey& key) const {
    const auto found = std::find_if(amendments_.rbegin(), amendments_.rend(),
                                    [&](const Amendment& amendment) { return keyOf(amendment) == key; });
    return found == amendments_.rend() ? nullptr : &*found;
}

EntryMark EntriesModel::markOf(int index) const {
    EntryMark mark{keyOf(row(index)), {}, true};
    if (row(index).kind == RowKind::amendment) {
        const Amendment* newest = newestOf(mark.key);
        mark.amendment = std::get<Amendment>(row(index).entry);
        mark.isInForce = newest == nullptr || !isWithdrawal(*newest);
    }
    return mark;
}

/// A reading given another time or position is known by these from then on.
EntryKey EntriesModel::nowKnownAs(EntryKey key) const {
    for (std::size_t step = 0; step < amendments_.size(); ++step) {
        const auto* id = std::get_if<ReadingId>(&key);
        const Amendment* newest = id != nullptr && !book_.log().reading(*id) ? newestOf(key) : nullptr;
        if (newest == nullptr || !newest->readingIs || *newest->readingIs == *id) {
            break;
        }
        key = *newest->readingIs;
    }
    return key;
}

std::optional<Instant> EntriesModel::instantOf(const EntryKey& key) const {
    if (const auto* reading = std::get_if<ReadingId>(&key)) {
        return reading->at;
    }
    const auto found = std::ranges::find_if(others_, [&](const EntryRow& row) { return keyOf(row) == key; });
    return found == others_.end() ? std::nullopt : std::optional{found->when.at};
}

int EntriesModel::rowOf(const EntryMark& mark) {
    const EntryKey key = nowKnownAs(mark.key);
    const auto at = batch_ ? instantOf(key) : std::nullopt;
    if (!at) {
        return -1;
    }
    reveal(*at);
    int entry = -1;
    int same = -1;
    int newest = -1;
    for (int i = 0; i < rowCount(); ++i) {
        const auto* amendment = std::get_if<Amendment>(&row(i).entry);
        if (amendment == nullptr) {
            entry = keyOf(row(i)) == key ? i : entry;
        } else if (keyOf(*amendment) == key || keyOf(*amendment) == mark.key) {
            same = mark.amendment && isSame(*amendment, *mark.amendment) ? i : same;
            newest = newestOf(key) != nullptr && isSame(*amendment, *newestOf(key)) ? i : newest;
        }
    }
    if (mark.isInForce && same >= 0) {
        return same;
    }
    return entry >= 0 ? entry : same >= 0 ? same : newest;
}

int EntriesModel::firstNotAfter(Instant at) const {
    const auto found = std::ranges::find_if(rows_, [&](const EntryRow& row) { return row.when.at <= at; });
    return found == rows_.end() ? rowCount() - 1 : static_cast<int>(found - rows_.begin());
}

/// The bin the entry is of: its own, or the one the batch stood in at that instant. Empty: the air of the whole site.
QString EntriesModel::binAt(const EntryRow& row) const {
    const auto* reading = std::get_if<Reading>(&row.entry);
    std::optional<BinId> wanted = reading != nullptr ? reading->place.bin : std::nullopt;
    for (const Stay& stay : batch_->record.batch.stays) {
        const bool isFirst = &stay == &batch_->record.batch.stays.front();
        wanted = reading == nullptr && (isFirst || stay.since <= row.when.at) ? stay.bin : wanted;
    }
    for (const Bin& bin : book_.log().bins()) {
        if (bin.id == wanted) {
            return words::text(bin.name);
        }
    }
    return {};
}

QString EntriesModel::named(int index) const {
    const EntryRow& entry = row(index);
    const QString bin = binAt(entry);
    const auto* reading = std::get_if<Reading>(&entry.entry);
    const QString position = reading == nullptr           ? QString{}
                             : reading->place.isOutside() ? tr("the air outside")
                                                          : words::text(reading->place.position);
    QStringList parts{bin, position, words::fullTime(book_.zone().momentAt(entry.when.at))};
    parts.removeAll(QString{});
    const QString subject = std::visit([](const auto& one) { return whatIs(one); }, entry.entry);
    return tr("%1 of %2").arg(subject, parts.join(QStringLiteral(", ")));
}

}  // namespace midden::ui
