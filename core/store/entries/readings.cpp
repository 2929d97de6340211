// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/entries/readings.h"

#include <algorithm>

#include "core/store/entries/entry_store.h"
#include "core/store/entries/occupancy.h"
#include "core/store/logbook.h"
#include "core/store/schema/amendment_rules.h"

namespace midden {

namespace {

Reading readingFrom(const Query& row, const ReadingId& id) {
    Reading reading;
    reading.place = id.place;
    reading.when = {id.at, row.offset(3)};
    reading.written = {row.written(0, row.unit(1)), row.unit(1)};
    if (const auto probe = row.maybeNumber(2)) {
        reading.probe = ProbeId{*probe};
    }
    reading.provenance.source = row.choice(4, Source::merged);
    reading.provenance.who = row.text(5);
    if (const auto entered = row.maybeNumber(6)) {
        reading.provenance.entered = Instant{*entered};
    }
    reading.note = row.text(7);
    return reading;
}

std::optional<std::int64_t> seriesHolding(DatabaseFile& file, const ReadingId& id) {
    Query query{file,
                "SELECT s.id FROM series s CROSS JOIN reading r ON r.series = s.id AND r.at = ?3 "
                "WHERE ifnull(s.bin, 0) = ifnull(?1, 0) AND s.position = ?2"};
    query.with(id.place.bin, id.place.position, id.at);
    return query.next() ? std::optional{query.number(0)} : std::nullopt;
}

void expectFree(DatabaseFile& file, const ReadingId& id, Moment when) {
    if (const auto stands = findReading(file, id)) {
        refuse(placeWords(file, id.place) + " already reads " + writtenWithUnit(stands->written) + " at " +
               longDateTime(when) + "; correct that entry instead");
    }
}

void expectSound(DatabaseFile& file, const Reading& reading) {
    if (!isReadable(toCelsius(reading.written))) {
        refuse(writtenWithUnit(reading.written) + " is outside −60 to 150 °C");
    }
    if (!reading.place.bin && !reading.place.isOutside()) {
        refuse("a reading inside needs a bin");
    }
    if (reading.when.at < beginningOfTime || reading.when.at >= endOfTime) {
        refuse("the time of the reading is outside the years 0 to 9999");
    }
    Query query{file, "SELECT 1 FROM bin WHERE id = ?"};
    query.with(reading.place.bin);
    if (reading.place.bin && !query.next()) {
        refuse("the bin of this reading is no longer in the book");
    }
}

/// What only some readings have: when it was typed, and a note.
void storeMore(DatabaseFile& file, std::int64_t series, const Reading& reading) {
    const auto& entered = reading.provenance.entered;
    Query update{file, "UPDATE reading_more SET note = ?3 WHERE series = ?1 AND at = ?2 AND note <> ?3"};
    update.with(series, reading.when.at, reading.note).run();
    if (entered || !reading.note.empty()) {
        Query{file,
              "INSERT INTO reading_more(series, at, entered, note) SELECT ?1, ?2, ?3, ?4 "
              "WHERE NOT EXISTS (SELECT 1 FROM reading_more WHERE series = ?1 AND at = ?2)"}
            .with(series, reading.when.at, entered, reading.note)
            .run();
    }
}

/// A reading put where one was withdrawn before is itself an amendment. Done here, not by a trigger, so that ten
/// million logger readings need not ask.
void notePutBack(DatabaseFile& file, const ReadingId& id) {
    static const std::string sql =
        amendmentOf("0, put.entry, NULL, put.bin, ?3, NULL, put.became", "put.entry",
                    "(SELECT ifnull(b.key, '') || '/' || s.position || '/' || ?3 AS entry, s.bin, " +
                        readingJson("r.at", "r.raw", "m.note", "m.entered") +
                        " AS became"
                        "  FROM series s CROSS JOIN reading r ON r.series = s.id AND r.at = ?3"
                        "  LEFT JOIN reading_more m ON m.series = r.series AND m.at = r.at"
                        "  LEFT JOIN bin b ON b.id = s.bin LEFT JOIN probe p ON p.id = s.probe"
                        "  WHERE ifnull(s.bin, 0) = ifnull(?1, 0) AND s.position = ?2) AS put "
                        "JOIN (SELECT 1) ON EXISTS (SELECT 1 FROM amendment earlier WHERE earlier.entry = put.entry)");
    Query{file, sql.c_str()}.with(id.place.bin, id.place.position, id.at).run();
}

/// Far more than anybody needs; without a bound the work would grow with their square.
constexpr std::int64_t mostPositionsOfABin = 200;
constexpr std::int64_t mostSeriesOfAPlace = 500;

/// Refuses one more way of reading a place where there are too many already.
void expectRoom(DatabaseFile& file, const Place& place) {
    Query query{file, "SELECT count(*) FROM series WHERE ifnull(bin, 0) = ifnull(?, 0) AND position = ?"};
    query.with(place.bin, place.position);
    query.next();
    if (query.number(0) >= mostSeriesOfAPlace) {
        refuse(placeWords(file, place) + " was read with " + std::to_string(mostSeriesOfAPlace) +
               " thermometers, offsets from UTC and hands already; expected no more of them at one position");
    }
    if (query.number(0) == 0 && place.bin && !place.isOutside()) {
        expectRoomForPosition(file, place);
    }
}

std::vector<SeriesRow> seriesRows(Query& query) {
    std::vector<SeriesRow> rows;
    while (query.next()) {
        SeriesRow row{query.number(0), query.text(1), {}, query.unit(3)};
        if (const auto probe = query.maybeNumber(2)) {
            row.probe = ProbeId{*probe};
        }
        rows.push_back(row);
    }
    return rows;
}

}  // namespace

ReadingColumn columnOf(const Reading& reading) {
    return {reading.place,         reading.probe, reading.written.unit, reading.when.offset, reading.provenance.source,
            reading.provenance.who};
}

std::int64_t seriesFor(DatabaseFile& file, const ReadingColumn& column) {
    Query find{file,
               "SELECT id FROM series WHERE ifnull(bin, 0) = ifnull(?, 0) AND position = ? AND probe IS ? AND unit = ? "
               "AND utc_offset = ? AND source = ? AND who = ?"};
    find.with(column.place.bin, column.place.position, column.probe, column.unit, column.offset, column.source,
              column.who);
    if (find.next()) {
        return find.number(0);
    }
    expectRoom(file, column.place);
    // Odd numbers for °F: see 001.sql.
    Query{file,
          "INSERT INTO series(id, bin, position, probe, unit, utc_offset, source, who) "
          "SELECT 2 * (ifnull(max(id), -2) / 2 + 1) + ?4, ?1, ?2, ?3, ?4, ?5, ?6, ?7 FROM series"}
        .with(column.place.bin, column.place.position, column.probe, column.unit, column.offset, column.source,
              column.who)
        .run();
    return file.number("SELECT last_insert_rowid()");
}

void expectRoomForPosition(DatabaseFile& file, const Place& place) {
    Query query{file,
                "SELECT count(*) FROM (SELECT position FROM place_setting WHERE bin = ?1"
                " UNION SELECT position FROM series WHERE ifnull(bin, 0) = ?1) WHERE position NOT IN ('', ?2)"};
    query.with(place.bin, place.position);
    query.next();
    if (query.number(0) >= mostPositionsOfABin) {
        refuse(placeWords(file, place) + ": the bin has " + std::to_string(mostPositionsOfABin) +
               " positions already; expected no more in one bin");
    }
}

std::vector<SeriesRow> seriesOf(DatabaseFile& file, std::optional<BinId> bin) {
    Query query{
        file, "SELECT id, position, probe, unit FROM series WHERE ifnull(bin, 0) = ifnull(?, 0) ORDER BY position, id"};
    query.with(bin);
    return seriesRows(query);
}

std::vector<SeriesRow> seriesAt(DatabaseFile& file, const Place& place) {
    Query query{file,
                "SELECT id, position, probe, unit FROM series WHERE ifnull(bin, 0) = ifnull(?, 0) AND position = ? "
                "ORDER BY id"};
    query.with(place.bin, place.position);
    return seriesRows(query);
}

std::vector<Place> Logbook::placesRead() const {
    std::vector<Place> places;
    Query query{state_->file,
                "SELECT DISTINCT bin, position FROM series s "
                "WHERE EXISTS (SELECT 1 FROM reading WHERE series = s.id) ORDER BY bin, position"};
    while (query.next()) {
        Place place{{}, query.text(1)};
        if (const auto bin = query.maybeNumber(0)) {
            place.bin = BinId{*bin};
        }
        places.push_back(place);
    }
    return places;
}

void Logbook::visitReadings(const Place& place, const std::function<void(const Reading&)>& visit) const {
    Query query{state_->file,
                "SELECT r.raw, s.unit, s.probe, s.utc_offset, s.source, s.who, m.entered, m.note, r.at "
                "FROM series s CROSS JOIN reading r ON r.series = s.id "
                "LEFT JOIN reading_more m ON m.series = r.series AND m.at = r.at "
                "WHERE ifnull(s.bin, 0) = ifnull(?1, 0) AND s.position = ?2 ORDER BY r.at"};
    query.with(place.bin, place.position);
    while (query.next()) {
        visit(readingFrom(query, {place, query.instant(8)}));
    }
}

std::optional<Reading> findReading(DatabaseFile& file, const ReadingId& id) {
    Query query{file,
                "SELECT r.raw, s.unit, s.probe, s.utc_offset, s.source, s.who, m.entered, m.note "
                "FROM series s CROSS JOIN reading r ON r.series = s.id AND r.at = ?3 "
                "LEFT JOIN reading_more m ON m.series = r.series AND m.at = r.at "
                "WHERE ifnull(s.bin, 0) = ifnull(?1, 0) AND s.position = ?2"};
    query.with(id.place.bin, id.place.position, id.at);
    return query.next() ? std::optional{readingFrom(query, id)} : std::nullopt;
}

std::string placeWords(DatabaseFile& file, const Place& place) {
    Query query{file, "SELECT name FROM bin WHERE id = ?"};
    query.with(place.bin);
    const std::string bin = query.next() ? query.text(0) : std::string{};
    const std::string position = place.isOutside() ? "outside air" : place.position;
    return bin.empty() ? position : position + ", " + bin;
}

template <>
std::optional<Reading> EntryStore<Reading>::find(Logbook::State& state, const ReadingId& id) {
    return findReading(state.file, id);
}

template <>
ReadingId EntryStore<Reading>::put(Logbook::State& state, const Reading& given) {
    Reading reading = given;
    sign(state, reading.provenance);
    expectSound(state.file, reading);
    expectFree(state.file, reading.id(), reading.when);
    const auto series = seriesFor(state.file, columnOf(reading));
    Query{state.file, "INSERT INTO reading(series, at, raw) VALUES (?, ?, ?)"}
        .with(series, reading.when.at, reading.written.tenThousandths)
        .run();
    storeMore(state.file, series, reading);
    notePutBack(state.file, reading.id());
    return reading.id();
}

template <>
ReadingId EntryStore<Reading>::amend(Logbook::State& state, const Reading& was, const Reading& given) {
    Reading reading = given;
    reading.provenance = was.provenance;
    expectSound(state.file, reading);
    if (reading.id() != was.id()) {
        expectFree(state.file, reading.id(), reading.when);
    }
    const auto from = seriesHolding(state.file, was.id());
    const auto to = seriesFor(state.file, columnOf(reading));
    if (from != to || reading.when.at != was.when.at || reading.written != was.written) {
        Query{state.file, "UPDATE reading SET series = ?, at = ?, raw = ? WHERE series = ? AND at = ?"}
            .with(to, reading.when.at, reading.written.tenThousandths, from, was.when.at)
            .run();
    }
    storeMore(state.file, to, reading);
    return reading.id();
}

template <>
void EntryStore<Reading>::withdraw(Logbook::State& state, const ReadingId& id) {
    Query{state.file, "DELETE FROM reading WHERE series = ? AND at = ?"}
        .with(seriesHolding(state.file, id), id.at)
        .run();
}

std::optional<Reading> Logbook::reading(const ReadingId& id) const {
    return findReading(state_->file, id);
}

}  // namespace midden
