// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/takeover.h"

#include <QCoreApplication>
#include <algorithm>

#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr std::size_t mostInAMinute = 100'000;

QString tr(const char* source) {
    return QCoreApplication::translate("forms", source);
}

}  // namespace

std::optional<Batch> runningIn(const Logbook& logbook, BinId bin, Instant at) {
    const auto id = logbook.occupant(bin, at);
    auto batch = id ? logbook.batch(*id) : std::nullopt;
    return batch && batch->finished && batch->finished->at <= at ? std::nullopt : batch;
}

Instant stoodSince(const Batch& batch) {
    return batch.stays.back().since;
}

Moment behindReadings(const Logbook& logbook, const std::vector<std::optional<BatchId>>& read, Moment typed) {
    constexpr std::int64_t minute = 60;
    const Instant end{typed.at.utcSeconds - typed.at.utcSeconds % minute + minute - 1};
    Moment behind = typed;
    for (const auto& batch : read) {
        const auto readings =
            batch ? logbook.readings(*batch, {typed.at, end}, false, mostInAMinute) : std::vector<Reading>{};
        if (!readings.empty()) {
            behind.at = std::max(behind.at, readings.back().when.at + Seconds{1});
        }
    }
    return behind;
}

Question takeoverQuestion(const Book& book, const QString& coming, const Batch& leaving, const Bin& bin, Moment when) {
    const QString left = words::text(leaving.name);
    const QString place = words::text(bin.name);
    const QString since = words::dayAndTime(book.zone().momentAt(stoodSince(leaving)), book.now());
    return {tr("“%1” has stood in %2 since %3 and is not finished. If %4 comes there, “%1” leaves the bin: it is "
               "finished on "
               "%5. Its readings up to then, those of that minute too, stay its own. Is that right?")
                .arg(left, place, since, coming, words::dayAndTime(when, book.now())),
            tr("Finish %1 and go on").arg(left), tr("Keep %1 in %2").arg(left, place)};
}

}  // namespace midden::ui
