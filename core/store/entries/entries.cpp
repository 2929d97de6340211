// SPDX-License-Identifier: GPL-3.0-or-later
// Additions, aerations, observations and thermometer checks: one row each, named by random digits.
#include "core/store/entries/entries.h"

#include <fmt/core.h>

#include <random>

#include "core/store/entries/entry_store.h"
#include "core/store/logbook.h"

namespace midden {

namespace {

EntryId newEntryId() {
    std::random_device random;
    return {fmt::format("{:08x}{:08x}{:08x}{:08x}", random(), random(), random(), random())};
}

/// The columns of a kind of entry, how they are filled and read. The first two are its id and what it belongs to.
template <class E>
struct Row;

void readCommon(const Query& row, auto& entry) {
    entry.id.digits = row.text(0);
    entry.when = {row.instant(2), row.offset(3)};
    entry.note = row.text(4);
    entry.provenance.source = row.choice(5, Source::merged);
    entry.provenance.who = row.text(6);
    if (const auto entered = row.maybeNumber(7)) {
        entry.provenance.entered = Instant{*entered};
    }
}

void addCommon(Query& query, const auto& entry) {
    query.add(entry.when.at).add(entry.when.offset).add(entry.note);
    query.add(entry.provenance.source).add(entry.provenance.who).add(entry.provenance.entered);
}

template <>
struct Row<Addition> {
    static constexpr const char* table = "addition";
    static constexpr const char* owner = "batch";
    static constexpr const char* columns =
        "id, batch, at, utc_offset, note, source, who, entered, material, mass_kg, volume_litres, moisture_percent, "
        "carbon_percent, nitrogen_percent, carbon_nitrogen, raw";
    static constexpr const char* marks = "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?";

    static void fill(Query& query, const Addition& entry) {
        query.add(entry.id.digits).add(entry.batch);
        addCommon(query, entry);
        query.add(entry.material).add(entry.massKilograms).add(entry.volumeLitres).add(entry.moisturePercent);
        query.add(entry.carbonPercent).add(entry.nitrogenPercent).add(entry.carbonNitrogen).add(entry.raw);
    }
    static Addition read(const Query& row) {
        Addition entry;
        readCommon(row, entry);
        entry.batch = BatchId{row.number(1)};
        entry.material = row.text(8);
        entry.massKilograms = row.real(9);
        entry.volumeLitres = row.maybeReal(10);
        entry.moisturePercent = row.maybeReal(11);
        entry.carbonPercent = row.maybeReal(12);
        entry.nitrogenPercent = row.maybeReal(13);
        entry.carbonNitrogen = row.maybeReal(14);
        if (const auto raw = row.maybeNumber(15)) {
            entry.raw = *raw != 0;
        }
        return entry;
    }
};

template <>
struct Row<Aeration> {
    static constexpr const char* table = "aeration";
    static constexpr const char* owner = "batch";
    static constexpr const char* columns = "id, batch, at, utc_offset, note, source, who, entered, kind";
    static constexpr const char* marks = "?, ?, ?, ?, ?, ?, ?, ?, ?";

    static void fill(Query& query, const Aeration& entry) {
        query.add(entry.id.digits).add(entry.batch);
        addCommon(query, entry);
        query.add(entry.kind);
    }
    static Aeration read(const Query& row) {
        Aeration entry;
        readCommon(row, entry);
        entry.batch = BatchId{row.number(1)};
        entry.kind = row.choice(8, AerationKind::other);
        return entry;
    }
};

template <>
struct Row<Observation> {
    static constexpr const char* table = "observation";
    static constexpr const char* owner = "batch";
    static constexpr const char* columns =
        "id, batch, at, utc_offset, note, source, who, entered, kind, subject, value";
    static constexpr const char* marks = "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?";

    static void fill(Query& query, const Observation& entry) {
        query.add(entry.id.digits).add(entry.batch);
        addCommon(query, entry);
        query.add(entry.kind).add(entry.subject).add(entry.value);
    }
    static Observation read(const Query& row) {
        Observation entry;
        readCommon(row, entry);
        entry.batch = BatchId{row.number(1)};
        entry.kind = row.choice(8, ObservationKind::condition);
        entry.subject = row.text(9);
        entry.value = row.text(10);
        return entry;
    }
};

template <>
struct Row<ThermometerCheck> {
    static constexpr const char* table = "thermometer_check";
    static constexpr const char* owner = "probe";
    static constexpr const char* columns =
        "id, probe, at, utc_offset, note, source, who, entered, kind, raw, unit, altitude_m, pressure_hpa, "
        "applies_from";
    static constexpr const char* marks = "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?";

    static void fill(Query& query, const ThermometerCheck& entry) {
        query.add(entry.id.digits).add(entry.probe);
        addCommon(query, entry);
        query.add(entry.kind).add(entry.read.tenThousandths).add(entry.read.unit);
        query.add(entry.altitudeMetres).add(entry.pressureHectopascals).add(entry.appliesFrom);
    }
    static ThermometerCheck read(const Query& row) {
        ThermometerCheck entry;
        readCommon(row, entry);
        entry.probe = ProbeId{row.number(1)};
        entry.kind = row.choice(8, CheckKind::boiling);
        entry.read = {row.written(9, row.unit(10)), row.unit(10)};
        entry.altitudeMetres = row.maybeReal(11);
        entry.pressureHectopascals = row.maybeReal(12);
        if (const auto from = row.maybeNumber(13)) {
            entry.appliesFrom = Instant{*from};
        }
        return entry;
    }
};

/// The statements of a kind of entry, written once.
template <class E>
struct Texts {
    std::string find = fmt::format("SELECT {} FROM {} WHERE id = ?", Row<E>::columns, Row<E>::table);
    std::string all =
        fmt::format("SELECT {} FROM {} WHERE {} = ? ORDER BY at, id", Row<E>::columns, Row<E>::table, Row<E>::owner);
    std::string insert = fmt::format("INSERT INTO {} ({}) VALUES ({})", Row<E>::table, Row<E>::columns, Row<E>::marks);
    std::string update =
        fmt::format("UPDATE {} SET ({}) = ({}) WHERE id = ?", Row<E>::table, Row<E>::columns, Row<E>::marks);
    std::string remove = fmt::format("DELETE FROM {} WHERE id = ?", Row<E>::table);

    static const Texts& get() {
        static const Texts texts;
        return texts;
    }
};

template <class E>
std::vector<E> allOf(DatabaseFile& file, std::int64_t owner) {
    std::vector<E> entries;
    Query query{file, Texts<E>::get().all.c_str()};
    query.with(owner);
    while (query.next()) {
        entries.push_back(Row<E>::read(query));
    }
    return entries;
}

}  // namespace

template <class E>
std::optional<E> EntryStore<E>::find(Logbook::State& state, const Id& id) {
    Query query{state.file, Texts<E>::get().find.c_str()};
    query.with(id.digits);
    return query.next() ? std::optional{Row<E>::read(query)} : std::nullopt;
}

template <class E>
typename EntryStore<E>::Id EntryStore<E>::put(Logbook::State& state, const E& given) {
    E entry = given;
    sign(state, entry.provenance);
    if (entry.id.digits.empty()) {
        entry.id = newEntryId();
    }
    Query query{state.file, Texts<E>::get().insert.c_str()};
    Row<E>::fill(query, entry);
    query.run();
    return entry.id;
}

template <class E>
typename EntryStore<E>::Id EntryStore<E>::amend(Logbook::State& state, const E& was, const E& given) {
    E entry = given;
    entry.id = was.id;
    entry.provenance = was.provenance;
    Query query{state.file, Texts<E>::get().update.c_str()};
    Row<E>::fill(query, entry);
    query.add(was.id.digits).run();
    return entry.id;
}

template <class E>
void EntryStore<E>::withdraw(Logbook::State& state, const Id& id) {
    Query{state.file, Texts<E>::get().remove.c_str()}.with(id.digits).run();
}

template <>
const char* const EntryStore<Addition>::noun = "the addition";
template <>
const char* const EntryStore<Aeration>::noun = "the aeration";
template <>
const char* const EntryStore<Observation>::noun = "the observation";
template <>
const char* const EntryStore<ThermometerCheck>::noun = "the thermometer check";

template struct EntryStore<Addition>;
template struct EntryStore<Aeration>;
template struct EntryStore<Observation>;
template struct EntryStore<ThermometerCheck>;

std::vector<Addition> additionsOf(DatabaseFile& file, BatchId batch) {
    return allOf<Addition>(file, static_cast<std::int64_t>(batch));
}
std::vector<Aeration> aerationsOf(DatabaseFile& file, BatchId batch) {
    return allOf<Aeration>(file, static_cast<std::int64_t>(batch));
}
std::vector<Observation> observationsOf(DatabaseFile& file, BatchId batch) {
    return allOf<Observation>(file, static_cast<std::int64_t>(batch));
}
std::vector<ThermometerCheck> checksOf(DatabaseFile& file, ProbeId probe) {
    return allOf<ThermometerCheck>(file, static_cast<std::int64_t>(probe));
}

std::vector<ThermometerCheck> Logbook::checks(ProbeId probe) const {
    return checksOf(state_->file, probe);
}

}  // namespace midden
