// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/entry_row.h"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>

#include "ui/chart/entry_words.h"
#include "ui/common/late.h"
#include "ui/common/words.h"

namespace midden::ui {

namespace {

QString say(const char* words) {
    return QCoreApplication::translate("Entries", words);
}

/// How the book calls the place of a reading: "core, North", "outside air". Empty: an entry of another kind.
std::string subjectOf(const Reading& reading) {
    return reading.place.isOutside() ? "outside air" : reading.place.position;
}

bool speaksOf(const Amendment& amendment, EntryKind kind, Instant at, const std::string& subject) {
    return amendment.kind == kind && amendment.at == at && !amendment.was.empty() && !amendment.became.empty() &&
           (subject.empty() || amendment.subject == subject || amendment.subject.starts_with(subject + ", "));
}

/// What stood there first, if the entry was amended.
QString wasOf(const std::vector<Amendment>& amendments, EntryKind kind, Instant at, const std::string& subject) {
    const auto found = std::ranges::find_if(
        amendments, [&](const Amendment& amendment) { return speaksOf(amendment, kind, at, subject); });
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
void addRows(std::vector<EntryRow>& rows, const std::vector<Entry>& entries, std::pair<RowKind, EntryKind> kinds,
             const std::vector<Amendment>& amendments) {
    for (const Entry& entry : entries) {
        rows.push_back({kinds.first,
                        entry.when,
                        entry,
                        {},
                        wasOf(amendments, kinds.second, entry.when.at, {}),
                        isLate(entry.provenance, entry.when.at)});
    }
}

void newestFirst(std::vector<EntryRow>& rows) {
    std::ranges::stable_sort(rows, std::ranges::greater{}, [](const EntryRow& row) { return row.when.at; });
}

EntryKind entryKindOf(const EntryRow& row) {
    switch (row.kind) {
        case RowKind::addition:
            return EntryKind::addition;
        case RowKind::aeration:
            return EntryKind::aeration;
        case RowKind::observation:
            return EntryKind::observation;
        default:
            return EntryKind::reading;
    }
}

bool isOfTheBatch(EntryKind kind) {
    return kind == EntryKind::reading || kind == EntryKind::addition || kind == EntryKind::aeration ||
           kind == EntryKind::observation;
}

/// Does an entry still stand where the amendment found it, so that its line shows the old value?
bool isShownElsewhere(const Amendment& amendment, const Logbook& logbook, const LoadedBatch& batch,
                      const std::vector<EntryRow>& rows) {
    if (amendment.was.empty() || amendment.became.empty()) {
        return false;
    }
    if (amendment.kind != EntryKind::reading) {
        return std::ranges::any_of(rows, [&](const EntryRow& row) {
            return row.when.at == amendment.at && entryKindOf(row) == amendment.kind;
        });
    }
    const Interval instant{amendment.at, amendment.at};
    const auto there = logbook.readings(batch.record.batch.id, instant, true, 64);
    return std::ranges::any_of(there, [&](const Reading& reading) {
        return speaksOf(amendment, EntryKind::reading, reading.when.at, subjectOf(reading));
    });
}

}  // namespace

std::vector<EntryRow> readingRows(const Logbook& logbook, const LoadedBatch& batch, Interval within,
                                  const std::vector<Amendment>& amendments) {
    constexpr std::size_t noLimit = 100'000;
    std::vector<EntryRow> rows;
    const Interval included{within.from, within.to - Seconds{1}};
    for (const Reading& reading : logbook.readings(batch.record.batch.id, included, true, noLimit)) {
        const RowKind kind = reading.place.isOutside() ? RowKind::outside : RowKind::reading;
        rows.push_back({kind, reading.when, reading, correctedOf(batch, reading),
                        wasOf(amendments, EntryKind::reading, reading.when.at, subjectOf(reading)),
                        isLate(reading.provenance, reading.when.at)});
    }
    newestFirst(rows);
    return rows;
}

std::vector<EntryRow> otherRows(const Logbook& logbook, const LoadedBatch& batch,
                                const std::vector<Amendment>& amendments) {
    std::vector<EntryRow> rows;
    addRows(rows, batch.record.additions, {RowKind::addition, EntryKind::addition}, amendments);
    addRows(rows, batch.record.aerations, {RowKind::aeration, EntryKind::aeration}, amendments);
    addRows(rows, batch.record.observations, {RowKind::observation, EntryKind::observation}, amendments);
    std::vector<EntryRow> corrections;
    for (const Amendment& amendment : amendments) {
        if (isOfTheBatch(amendment.kind) && !isShownElsewhere(amendment, logbook, batch, rows)) {
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
        case RowKind::amendment: {
            const auto& amendment = std::get<Amendment>(row.entry);
            return amendment.became.empty() ? say("withdrawn")
                   : amendment.was.empty()  ? say("put back")
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
