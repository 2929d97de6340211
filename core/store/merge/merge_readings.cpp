// SPDX-License-Identifier: GPL-3.0-or-later
// Merging readings: in slices and key order where nothing stands in the way, one by one where something does.
#include <algorithm>

#include "core/store/entries/bulk_readings.h"
#include "core/store/entries/entry_store.h"
#include "core/store/entries/readings.h"
#include "core/store/logbook.h"
#include "core/store/merge/merger.h"

namespace midden {

namespace {

std::optional<std::int64_t> number(const Json& json, const char* field) {
    const auto found = json.find(field);
    return found != json.end() && found->is_number() ? std::optional{found->get<std::int64_t>()} : std::nullopt;
}

Reading readingFrom(const Json& own, const ReadingId& id) {
    Reading reading;
    reading.place = id.place;
    reading.when = {id.at, {static_cast<std::int16_t>(number(own, "utc_offset").value_or(0))}};
    reading.written = {static_cast<std::int32_t>(number(own, "raw").value_or(0)),
                       static_cast<TemperatureUnit>(number(own, "unit").value_or(0))};
    if (const auto probe = number(own, "probe")) {
        reading.probe = ProbeId{*probe};
    }
    reading.provenance.source = static_cast<Source>(number(own, "source").value_or(0));
    reading.provenance.who = own.value("who", "");
    if (const auto entered = number(own, "entered")) {
        reading.provenance.entered = Instant{*entered};
    }
    reading.note = own.value("note", "");
    return reading;
}

std::vector<RawReading> sliceAfter(DatabaseFile& file, std::int64_t series, TemperatureUnit unit, Instant after) {
    constexpr int sliceLength = 65'536;
    std::vector<RawReading> slice;
    Query query{file, "SELECT at, raw FROM reading WHERE series = ? AND at > ? ORDER BY at LIMIT ?"};
    query.with(series, after, sliceLength);
    while (query.next()) {
        slice.push_back({query.instant(0), query.written(1, unit)});
    }
    return slice;
}

std::set<Instant> withMore(DatabaseFile& file, std::int64_t series, Interval range) {
    std::set<Instant> instants;
    Query query{file, "SELECT at FROM reading_more WHERE series = ? AND at BETWEEN ? AND ?"};
    query.with(series, range.from, range.to);
    while (query.next()) {
        instants.insert(query.instant(0));
    }
    return instants;
}

enum class Occupant { nothing, theSame, another };

struct Written {
    Instant at;
    WrittenTemperature temperature;
};

/// What stands where `reading` wants to: the same number in its own series, or something else.
Occupant occupantAt(std::vector<Neighbour>& neighbours, std::int64_t own, Written reading) {
    auto occupant = Occupant::nothing;
    for (Neighbour& neighbour : neighbours) {
        const auto stands = neighbour.at(reading.at);
        if (stands && neighbour.series() == own && *stands == reading.temperature) {
            return Occupant::theSame;
        }
        if (stands) {
            occupant = Occupant::another;
        }
    }
    return occupant;
}

}  // namespace

void Merger::mergeReadings() {
    Query query{theirs_.file,
                "SELECT id, bin, position, probe, unit, utc_offset, source, who FROM series s "
                "WHERE EXISTS (SELECT 1 FROM reading WHERE series = s.id) ORDER BY id"};
    while (query.next()) {
        ReadingColumn column;
        std::string binKey;
        if (const auto bin = query.maybeNumber(1)) {
            binKey = theirs_.keys.sharedKey("bin", *bin);
            column.place.bin = BinId{ours_.keys.idOf("bin", binKey).value_or(0)};
        }
        column.place.position = query.text(2);
        if (const auto probe = query.maybeNumber(3)) {
            column.probe = ProbeId{ours_.keys.idOf("probe", theirs_.keys.sharedKey("probe", *probe)).value_or(0)};
        }
        column.unit = query.unit(4);
        column.offset = query.offset(5);
        column.source = query.choice(6, Source::merged);
        column.who = query.text(7);
        mergeSeries(query.number(0), column, binKey);
    }
}

void Merger::mergeSeries(std::int64_t id, const ReadingColumn& column, const std::string& binKey) {
    constexpr std::int64_t noSeries = -1;
    constexpr Instant beforeTime{INT64_MIN};
    const auto own = seriesFor(state_.file, column);
    const std::string prefix = binKey + "/" + column.place.position + "/";
    Query insert{state_.file, "INSERT INTO reading(series, at, raw) VALUES (?, ?, ?)"};
    for (auto slice = sliceAfter(theirs_.file, id, column.unit, beforeTime); !slice.empty();
         slice = sliceAfter(theirs_.file, id, column.unit, slice.back().at)) {
        const Interval range{slice.front().at, slice.back().at};
        auto neighbours = neighboursOf(state_.file, column.place, noSeries, range);
        auto special = withMore(theirs_.file, id, range);
        special.merge(withMore(state_.file, own, range));
        for (const RawReading& reading : slice) {
            const EntryName entry{EntryKind::reading, prefix + std::to_string(reading.at.utcSeconds)};
            const auto occupant = occupantAt(neighbours, own, {reading.at, {reading.tenThousandths, column.unit}});
            if (occupant == Occupant::another || special.contains(reading.at) || settled_.contains(entry)) {
                resolve(entry);
            } else if (occupant == Occupant::nothing) {
                insert.with(own, reading.at, reading.tenThousandths).run();
                count(EntryKind::reading);
            }
        }
    }
}

void Merger::storeReading(const EntryName& entry, const Value& from, const Value& to) {
    const ReadingId id = ours_.readingId(entry);
    if (from) {
        // The amendment is in the book already: out and in again is the plainest way to any other value.
        EntryStore<Reading>::withdraw(state_, id);
    }
    if (!to) {
        return;
    }
    const Reading reading = readingFrom(ours_.own(entry, *to, false), id);
    const auto series = seriesFor(state_.file, columnOf(reading));
    Query{state_.file, "INSERT INTO reading(series, at, raw) VALUES (?, ?, ?)"}
        .with(series, id.at, reading.written.tenThousandths)
        .run();
    if (reading.provenance.entered || !reading.note.empty()) {
        Query{state_.file, "INSERT INTO reading_more(series, at, entered, note) VALUES (?, ?, ?, ?)"}
            .with(series, id.at, reading.provenance.entered, reading.note)
            .run();
    }
}

}  // namespace midden
