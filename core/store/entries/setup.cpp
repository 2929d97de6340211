// SPDX-License-Identifier: GPL-3.0-or-later
// Bins, probes and places.
#include "core/store/entries/setup.h"

#include <algorithm>

#include "core/store/entries/entry_store.h"
#include "core/store/entries/readings.h"
#include "core/store/logbook.h"

namespace midden {

namespace {

constexpr const char* binColumns =
    "SELECT id, name, volume_litres, insulation_mm, conductivity, note, retired, height_cm, hatch_top_cm, vent_cm2,"
    " vent_rise_cm, air_changes_h FROM bin ";

Bin binFrom(const Query& row) {
    Bin bin;
    bin.id = BinId{row.number(0)};
    bin.name = row.text(1);
    bin.volumeLitres = row.maybeReal(2);
    bin.insulationMillimetres = row.maybeReal(3);
    bin.conductivityWattsPerMetreKelvin = row.maybeReal(4);
    bin.note = row.text(5);
    bin.retired = row.number(6) != 0;
    bin.heightCentimetres = row.maybeReal(7);
    bin.hatchTopCentimetres = row.maybeReal(8);
    bin.ventSquareCentimetres = row.maybeReal(9);
    bin.ventRiseCentimetres = row.maybeReal(10);
    bin.airChangesPerHour = row.maybeReal(11);
    return bin;
}

Probe probeFrom(const Query& row) {
    Probe probe;
    probe.id = ProbeId{row.number(0)};
    probe.name = row.text(1);
    if (const auto parts = row.maybeNumber(2)) {
        probe.accuracy = Kelvins::ofParts(*parts);
    }
    probe.note = row.text(3);
    return probe;
}

std::optional<Bin> findBin(DatabaseFile& file, BinId id) {
    static const std::string sql = std::string{binColumns} + "WHERE id = ?";
    Query query{file, sql.c_str()};
    query.with(id);
    return query.next() ? std::optional{binFrom(query)} : std::nullopt;
}

std::optional<Probe> findProbe(DatabaseFile& file, ProbeId id) {
    Query query{file, "SELECT id, name, accuracy_parts, note FROM probe WHERE id = ?"};
    query.with(id);
    return query.next() ? std::optional{probeFrom(query)} : std::nullopt;
}

std::optional<std::int64_t> givenId(auto id) {
    const auto number = static_cast<std::int64_t>(id);
    return number == 0 ? std::nullopt : std::optional{number};
}

void refuseTakenName(DatabaseFile& file, const char* sql, const std::string& name, std::int64_t self) {
    if (name.empty()) {
        refuse("a name is missing");
    }
    Query query{file, sql};
    query.with(name, self);
    if (query.next()) {
        refuse("the name “" + name + "” is already taken");
    }
}

void expectBinNameFree(DatabaseFile& file, const Bin& bin, BinId self) {
    refuseTakenName(file, "SELECT 1 FROM bin WHERE name = ? AND id <> ?", bin.name, static_cast<std::int64_t>(self));
}

void expectProbeNameFree(DatabaseFile& file, const Probe& probe, ProbeId self) {
    refuseTakenName(file, "SELECT 1 FROM probe WHERE name = ? AND id <> ?", probe.name,
                    static_cast<std::int64_t>(self));
}

bool isSetUp(DatabaseFile& file, const Place& place) {
    Query query{file, "SELECT 1 FROM place_setting WHERE bin = ? AND position = ?"};
    query.with(place.bin, place.position);
    return query.next();
}

bool found(DatabaseFile& file, const char* sql, auto id) {
    Query query{file, sql};
    query.with(id);
    return query.next();
}

}  // namespace

std::optional<std::string> formerKey(DatabaseFile& file, EntryKind kind, std::int64_t id) {
    Query query{file,
                "SELECT entry FROM amendment WHERE kind = ? AND became IS NULL AND amended_field(was, 'id') = ? "
                "ORDER BY id DESC LIMIT 1"};
    query.with(kind, id);
    return query.next() ? std::optional{query.text(0)} : std::nullopt;
}

Bin binOf(DatabaseFile& file, BinId id) {
    return findBin(file, id).value_or(Bin{});
}

Probe probeOf(DatabaseFile& file, ProbeId id) {
    return findProbe(file, id).value_or(Probe{});
}

std::int64_t lastId(DatabaseFile& file) {
    return file.number("SELECT last_insert_rowid()");
}

template <>
std::optional<Bin> EntryStore<Bin>::find(Logbook::State& state, const BinId& id) {
    return findBin(state.file, id);
}

template <>
BinId EntryStore<Bin>::put(Logbook::State& state, const Bin& bin) {
    expectBinNameFree(state.file, bin, BinId{});
    const auto id = givenId(bin.id);
    const auto key = id ? formerKey(state.file, EntryKind::bin, *id) : std::nullopt;
    Query{state.file,
          "INSERT INTO bin(id, key, name, volume_litres, insulation_mm, conductivity, note, retired, height_cm, "
          "hatch_top_cm, vent_cm2, vent_rise_cm, air_changes_h) "
          "VALUES (?, ifnull(?, lower(hex(randomblob(16)))), ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"}
        .with(id, key, bin.name, bin.volumeLitres, bin.insulationMillimetres, bin.conductivityWattsPerMetreKelvin,
              bin.note, bin.retired, bin.heightCentimetres, bin.hatchTopCentimetres, bin.ventSquareCentimetres,
              bin.ventRiseCentimetres, bin.airChangesPerHour)
        .run();
    return BinId{lastId(state.file)};
}

template <>
BinId EntryStore<Bin>::amend(Logbook::State& state, const Bin& was, const Bin& bin) {
    expectBinNameFree(state.file, bin, was.id);
    Query{state.file,
          "UPDATE bin SET name = ?, volume_litres = ?, insulation_mm = ?, conductivity = ?, note = ?, retired = ?, "
          "height_cm = ?, hatch_top_cm = ?, vent_cm2 = ?, vent_rise_cm = ?, air_changes_h = ? WHERE id = ?"}
        .with(bin.name, bin.volumeLitres, bin.insulationMillimetres, bin.conductivityWattsPerMetreKelvin, bin.note,
              bin.retired, bin.heightCentimetres, bin.hatchTopCentimetres, bin.ventSquareCentimetres,
              bin.ventRiseCentimetres, bin.airChangesPerHour, was.id)
        .run();
    return was.id;
}

template <>
void EntryStore<Bin>::withdraw(Logbook::State& state, const BinId& id) {
    if (found(state.file, "SELECT 1 FROM batch WHERE bin = ?1 UNION ALL SELECT 1 FROM move WHERE bin = ?1", id)) {
        refuse("a batch stood in this bin; retire the bin instead");
    }
    if (found(state.file, "SELECT 1 FROM series s JOIN reading r ON r.series = s.id WHERE s.bin = ? LIMIT 1", id)) {
        refuse("this bin has readings; retire the bin instead");
    }
    if (found(state.file, "SELECT 1 FROM place_setting WHERE bin = ?", id)) {
        refuse("this bin has positions set up; take those away first, or retire the bin");
    }
    Query{state.file, "DELETE FROM series WHERE bin = ?"}.with(id).run();
    Query{state.file, "DELETE FROM bin WHERE id = ?"}.with(id).run();
}

template <>
std::optional<Probe> EntryStore<Probe>::find(Logbook::State& state, const ProbeId& id) {
    return findProbe(state.file, id);
}

template <>
ProbeId EntryStore<Probe>::put(Logbook::State& state, const Probe& probe) {
    expectProbeNameFree(state.file, probe, ProbeId{});
    const auto id = givenId(probe.id);
    const auto key = id ? formerKey(state.file, EntryKind::probe, *id) : std::nullopt;
    Query{state.file,
          "INSERT INTO probe(id, key, name, accuracy_parts, note) "
          "VALUES (?, ifnull(?, lower(hex(randomblob(16)))), ?, ?, ?)"}
        .with(id, key, probe.name, probe.accuracy, probe.note)
        .run();
    return ProbeId{lastId(state.file)};
}

template <>
ProbeId EntryStore<Probe>::amend(Logbook::State& state, const Probe& was, const Probe& probe) {
    expectProbeNameFree(state.file, probe, was.id);
    Query{state.file, "UPDATE probe SET name = ?, accuracy_parts = ?, note = ? WHERE id = ?"}
        .with(probe.name, probe.accuracy, probe.note, was.id)
        .run();
    return was.id;
}

template <>
void EntryStore<Probe>::withdraw(Logbook::State& state, const ProbeId& id) {
    if (found(state.file, "SELECT 1 FROM series s JOIN reading r ON r.series = s.id WHERE s.probe = ? LIMIT 1", id)) {
        refuse("readings were taken with this probe; it stays in the book");
    }
    if (found(state.file, "SELECT 1 FROM thermometer_check WHERE probe = ?", id)) {
        refuse("this probe has ice or boiling checks; withdraw those first");
    }
    Query{state.file, "DELETE FROM series WHERE probe = ?"}.with(id).run();
    Query{state.file, "DELETE FROM probe WHERE id = ?"}.with(id).run();
}

/// A position that only readings tell of has no row yet, and may be amended all the same.
template <>
std::optional<PlaceSetting> EntryStore<PlaceSetting>::find(Logbook::State& state, const Place& place) {
    const auto places = place.bin ? placesOf(state.file, *place.bin) : std::vector<PlaceSetting>{};
    const auto found = std::find_if(places.begin(), places.end(), [&](const auto& one) { return one.place == place; });
    return found == places.end() ? std::nullopt : std::optional{*found};
}

template <>
Place EntryStore<PlaceSetting>::put(Logbook::State& state, const PlaceSetting& setting) {
    if (!setting.place.bin || setting.place.position.empty()) {
        refuse("a position needs a bin and a name");
    }
    if (isSetUp(state.file, setting.place)) {
        refuse("the position “" + setting.place.position + "” is already there");
    }
    expectRoomForPosition(state.file, setting.place);
    Query{state.file, "INSERT INTO place_setting(bin, position, spot_check, height_cm) VALUES (?, ?, ?, ?)"}
        .with(setting.place.bin, setting.place.position, setting.spotCheck, setting.heightCentimetres)
        .run();
    return setting.place;
}

template <>
Place EntryStore<PlaceSetting>::amend(Logbook::State& state, const PlaceSetting& was, const PlaceSetting& setting) {
    if (!isSetUp(state.file, was.place)) {
        return put(state, setting);
    }
    if (setting.place != was.place && isSetUp(state.file, setting.place)) {
        refuse("the position “" + setting.place.position + "” is already there");
    }
    Query{
        state.file,
        "UPDATE place_setting SET bin = ?, position = ?, spot_check = ?, height_cm = ? WHERE bin = ? AND position = ?"}
        .with(setting.place.bin, setting.place.position, setting.spotCheck, setting.heightCentimetres, was.place.bin,
              was.place.position)
        .run();
    return setting.place;
}

template <>
void EntryStore<PlaceSetting>::withdraw(Logbook::State& state, const Place& place) {
    Query{state.file, "DELETE FROM place_setting WHERE bin = ? AND position = ?"}.with(place.bin, place.position).run();
}

std::vector<Bin> Logbook::bins() const {
    static const std::string sql = std::string{binColumns} + "ORDER BY name";
    std::vector<Bin> bins;
    Query query{state_->file, sql.c_str()};
    while (query.next()) {
        bins.push_back(binFrom(query));
    }
    return bins;
}

std::vector<Probe> Logbook::probes() const {
    std::vector<Probe> probes;
    Query query{state_->file, "SELECT id, name, accuracy_parts, note FROM probe ORDER BY name"};
    while (query.next()) {
        probes.push_back(probeFrom(query));
    }
    return probes;
}

std::optional<Bin> Logbook::binNamed(std::string_view name) const {
    static const std::string sql = std::string{binColumns} + "WHERE name = ?";
    Query query{state_->file, sql.c_str()};
    query.with(name);
    return query.next() ? std::optional{binFrom(query)} : std::nullopt;
}

std::optional<Probe> Logbook::probeNamed(std::string_view name) const {
    Query query{state_->file, "SELECT id, name, accuracy_parts, note FROM probe WHERE name = ?"};
    query.with(name);
    return query.next() ? std::optional{probeFrom(query)} : std::nullopt;
}

std::vector<PlaceSetting> placesOf(DatabaseFile& file, BinId bin) {
    std::vector<PlaceSetting> places;
    Query query{file,
                "SELECT position, max(spot), max(height) FROM ("
                "  SELECT position, spot_check AS spot, height_cm AS height FROM place_setting WHERE bin = ?1"
                "  UNION ALL SELECT position, 0, NULL FROM series s WHERE s.bin = ?1 AND position <> ''"
                "    AND EXISTS (SELECT 1 FROM reading WHERE series = s.id)"
                ") GROUP BY position ORDER BY position"};
    query.with(bin);
    while (query.next()) {
        places.push_back({{bin, query.text(0)}, query.number(1) != 0, query.maybeReal(2)});
    }
    return places;
}

std::vector<PlaceSetting> Logbook::places(BinId bin) const {
    return placesOf(state_->file, bin);
}

}  // namespace midden
