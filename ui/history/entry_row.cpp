// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/entry_row.h"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>

#include "ui/chart/entry_words.h"
#include "ui/shared/late.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString say(const char* words) {
    return QCoreApplication::translate("Entries", words);
}

/// A value put in the place of another, while the entry stood where it stands.
bool isCorrectionAt(const Amendment& amendment, Instant at) {
    return amendment.at == at && !amendment.was.empty() && !amendment.became.empty();
}

/// What stood there first, if the entry was amended.
QString wasOf(const std::vector<Amendment>& amendments, const EntryKey& key, Instant at) {
    const auto found = std::ranges::find_if(amendments, [&](const Amendment& amendment) {
        return isCorrectionAt(amendment, at) && keyOf(amendment) == key;
    });
    return found == amendments.end() ? QString{} : words::text(found->was);
}

std::optional<Celsius> correctedOf(const LoadedBatch& batch, const Reading& reading) {
    const auto spot = spotOf(batch, reading.place.position, reading.when.at);
    if (!spot) {
        return {};
    }
    return batch.record.tracks[spot->track].samples[spot->sample].temperature();
}

template <class Entry>
void addRows(std::vector<EntryRow>& rows, const std::vector<Entry>& entries, RowKind kind,
             const std::vector<Amendment>& amendments) {
    for (const Entry& entry : entries) {
        rows.push_back({kind,
                        entry.when,
                        entry,
                        {},
                        wasOf(amendments, entry.id, entry.when.at),
                        isLate(entry.provenance, entry.when.at)});
    }
}

void newestFirst(std::vector<EntryRow>& rows) {
    std::ranges::stable_sort(rows, std::ranges::greater{}, [](const EntryRow& row) { return row.when.at; });
}

bool isListed(EntryKind kind) {
    return kind == EntryKind::reading || kind == EntryKind::addition || kind == EntryKind::aeration ||
           kind == EntryKind::observation || kind == EntryKind::harvest || kind == EntryKind::check;
}

/// Does the entry still stand where the amendment found it, so that its own line shows the old value?
bool isShownElsewhere(const Amendment& amendment, const Logbook& logbook, const std::vector<EntryRow>& rows) {
    if (!isCorrectionAt(amendment, amendment.at)) {
        return false;
    }
    if (amendment.reading) {
        return logbook.reading(*amendment.reading).has_value();
    }
    return std::ranges::any_of(rows, [&](const EntryRow& row) {
        return row.when.at == amendment.at && row.kind != RowKind::amendment && keyOf(row) == keyOf(amendment);
    });
}

/// Of the batch's bins and, for the air of the whole site, wherever the batch stood.
std::vector<Reading> readingsWithin(const Logbook& logbook, BatchId batch, Interval within) {
    constexpr std::size_t noLimit = 100'000;
    std::vector<Reading> readings = logbook.readings(batch, within, true, noLimit);
    std::ranges::copy(logbook.siteAir(batch, within, noLimit), std::back_inserter(readings));
    return readings;
}

}  // namespace

EntryKey keyOf(const Amendment& amendment) {
    return amendment.reading ? EntryKey{*amendment.reading} : EntryKey{amendment.entry};
}

EntryKey keyOf(const EntryRow& row) {
    return std::visit(
        [](const auto& entry) -> EntryKey {
            using Entry = std::decay_t<decltype(entry)>;
            if constexpr (std::is_same_v<Entry, Amendment>) {
                return keyOf(entry);
            } else if constexpr (std::is_same_v<Entry, Reading>) {
                return entry.id();
            } else {
                return entry.id;
            }
        },
        row.entry);
}

bool isWithdrawal(const Amendment& amendment) {
    return amendment.became.empty();
}

std::vector<EntryRow> readingRows(const Logbook& logbook, const LoadedBatch& batch, Interval within,
                                  const std::vector<Amendment>& amendments) {
    std::vector<EntryRow> rows;
    const Interval included{within.from, within.to - Seconds{1}};
    for (const Reading& reading : readingsWithin(logbook, batch.record.batch.id, included)) {
        const RowKind kind = reading.place.isOutside() ? RowKind::outside : RowKind::reading;
        rows.push_back({kind, reading.when, reading, correctedOf(batch, reading),
                        wasOf(amendments, reading.id(), reading.when.at), isLate(reading.provenance, reading.when.at)});
    }
    newestFirst(rows);
    return rows;
}

std::vector<EntryRow> otherRows(const Logbook& logbook, const LoadedBatch& batch,
                                const std::vector<Amendment>& amendments) {
    std::vector<EntryRow> rows;
    addRows(rows, batch.record.additions, RowKind::addition, amendments);
    addRows(rows, batch.record.aerations, RowKind::aeration, amendments);
    addRows(rows, batch.record.observations, RowKind::observation, amendments);
    addRows(rows, batch.record.harvests, RowKind::harvest, amendments);
    std::vector<EntryRow> corrections;
    for (const Amendment& amendment : amendments) {
        if (isListed(amendment.kind) && !isShownElsewhere(amendment, logbook, rows)) {
            corrections.push_back({RowKind::amendment, {amendment.at, {}}, amendment, {}, words::text(amendment.was)});
        }
    }
    rows.insert(rows.end(), corrections.begin(), corrections.end());
    newestFirst(rows);
    return rows;
}

QString whatOf(const EntryRow& row) {
    switch (row.kind) {
        case RowKind::reading:
        case RowKind::outside:
            return say("reading");
        case RowKind::addition:
            return words::text(std::get<Addition>(row.entry).material);
        case RowKind::aeration:
            return words::kindOf(std::get<Aeration>(row.entry).kind);
        case RowKind::observation:
            return words::observation(std::get<Observation>(row.entry));
        case RowKind::harvest:
            return say("harvest");
        case RowKind::amendment: {
            const auto& amendment = std::get<Amendment>(row.entry);
            return isWithdrawal(amendment) ? say("withdrawn")
                   : amendment.was.empty() ? say("put back")
                                           : say("amended");
        }
    }
    return {};
}

QString whereOf(const EntryRow& row) {
    if (row.kind == RowKind::outside) {
        return say("outside");
    }
    if (row.kind == RowKind::reading) {
        return words::text(std::get<Reading>(row.entry).place.position);
    }
    return row.kind == RowKind::amendment ? words::text(std::get<Amendment>(row.entry).subject) : QString{};
}

QString valueOf(const EntryRow& row, TemperatureUnit unit) {
    switch (row.kind) {
        case RowKind::reading:
        case RowKind::outside: {
            const WrittenTemperature written = std::get<Reading>(row.entry).written;
            return written.unit == unit ? words::localised(writtenNumber(written)) : words::written(written);
        }
        case RowKind::addition:
            return say("%1 kg").arg(QLocale{}.toString(std::get<Addition>(row.entry).massKilograms, 'g', 6));
        case RowKind::harvest:
            return say("%1 L").arg(QLocale{}.toString(std::get<Harvest>(row.entry).volumeLitres, 'g', 6));
        case RowKind::amendment:
            return words::text(std::get<Amendment>(row.entry).became);
        default:
            return {};
    }
}

QString whoOf(const EntryRow& row) {
    return std::visit(
        [](const auto& entry) {
            if constexpr (requires { entry.who; }) {
                return words::text(entry.who);
            } else {
                return words::text(entry.provenance.who);
            }
        },
        row.entry);
}

QString noteOf(const EntryRow& row) {
    return std::visit(
        [](const auto& entry) {
            if constexpr (requires { entry.why; }) {
                return words::text(entry.why);
            } else {
                return words::text(entry.note);
            }
        },
        row.entry);
}

}  // namespace midden::ui
