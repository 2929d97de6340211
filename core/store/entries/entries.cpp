// SPDX-License-Identifier: GPL-3.0-or-later
// Additions, aerations, observations, harvests and thermometer checks: one row each, named by random digits.
#include "core/store/entries/entries.h"

#include <fmt/core.h>

#include <algorithm>
#include <random>

#include "core/records/dated_entries.h"
#include "core/store/entries/entry_store.h"
#include "core/store/logbook.h"

namespace midden {

namespace {

EntryId newEntryId() {
    std::random_device random;
    return {fmt::format("{:08x}{:08x}{:08x}{:08x}", random(), random(), random(), random())};
}

constexpr const char* commonColumns = "at, utc_offset, note, source, who, entered";

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

// What a field is in a row, by its type. Each takes the columns it needs from `at` on.
void take(const Query& row, int& at, std::string& into) {
    into = row.text(at++);
}
void take(const Query& row, int& at, double& into) {
    into = row.real(at++);
}
void take(const Query& row, int& at, std::optional<double>& into) {
    into = row.maybeReal(at++);
}
void take(const Query& row, int& at, std::optional<bool>& into) {
    const auto number = row.maybeNumber(at++);
    into = number ? std::optional{*number != 0} : std::nullopt;
}
void take(const Query& row, int& at, std::optional<Instant>& into) {
    const auto number = row.maybeNumber(at++);
    into = number ? std::optional{Instant{*number}} : std::nullopt;
}
void take(const Query& row, int& at, WrittenTemperature& into) {
    into.unit = row.unit(at + 1);
    into.tenThousandths = row.written(at, into.unit);
    at += 2;
}
template <class Enum>
requires std::is_enum_v<Enum>
void take(const Query& row, int& at, Enum& into) {
    into = row.choice(at++, lastOf<Enum>);
}

void give(Query& query, const auto& value) {
    query.add(value);
}
void give(Query& query, const WrittenTemperature& value) {
    query.add(value.tenThousandths).add(value.unit);
}

template <class E>
std::string columnsOf() {
    std::string columns = fmt::format("id, {}, {}", EntryDescription<E>::owner, commonColumns);
    eachField<E>([&](const auto& field) { columns += fmt::format(", {}", field.column); });
    return columns;
}

template <class E>
E entryFrom(const Query& row) {
    E entry;
    readCommon(row, entry);
    entry.*EntryDescription<E>::ownerMember =
        std::remove_reference_t<decltype(entry.*EntryDescription<E>::ownerMember)>{row.number(1)};
    int at = 8;
    eachField<E>([&](const auto& field) { take(row, at, entry.*field.member); });
    return entry;
}

template <class E>
void fill(Query& query, const E& entry) {
    query.add(entry.id.digits).add(entry.*EntryDescription<E>::ownerMember);
    addCommon(query, entry);
    eachField<E>([&](const auto& field) { give(query, entry.*field.member); });
}

/// The statements of a kind of entry, written once.
template <class E>
struct Texts {
    static constexpr std::string_view table = EntryDescription<E>::table;
    std::string columns = columnsOf<E>();
    std::string marks = "?" + repeated(", ?", static_cast<std::size_t>(std::ranges::count(columns, ',')));
    std::string find = fmt::format("SELECT {} FROM {} WHERE id = ?", columns, table);
    std::string all =
        fmt::format("SELECT {} FROM {} WHERE {} = ? ORDER BY at, id", columns, table, EntryDescription<E>::owner);
    std::string insert = fmt::format("INSERT INTO {} ({}) VALUES ({})", table, columns, marks);
    std::string update = fmt::format("UPDATE {} SET ({}) = ({}) WHERE id = ?", table, columns, marks);
    std::string remove = fmt::format("DELETE FROM {} WHERE id = ?", table);

    static const Texts& get() {
        static const Texts texts;
        return texts;
    }

  private:
    static std::string repeated(std::string_view text, std::size_t times) {
        std::string all;
        for (std::size_t i = 0; i < times; ++i) {
            all += text;
        }
        return all;
    }
};

/// Remembers with which list of materials the additions so far were written: see setting::materialsSince.
void rememberMaterials(Logbook::State& state, const Addition&) {
    if (state.undoing) {
        return;
    }
    Query{
        state.file,
        "INSERT INTO setting(name, value) SELECT 'materials_since', CAST(coalesce((SELECT max(at) + 1 FROM addition), "
        "-62167219200) AS TEXT) WHERE NOT EXISTS (SELECT 1 FROM setting WHERE name = 'materials_since')"}
        .run();
}
void rememberMaterials(Logbook::State&, const auto&) {}

}  // namespace

template <class E>
std::optional<E> EntryStore<E>::find(Logbook::State& state, const Id& id) {
    Query query{state.file, Texts<E>::get().find.c_str()};
    query.with(id.digits);
    return query.next() ? std::optional{entryFrom<E>(query)} : std::nullopt;
}

template <class E>
typename EntryStore<E>::Id EntryStore<E>::put(Logbook::State& state, const E& given) {
    E entry = given;
    rememberMaterials(state, entry);
    sign(state, entry.provenance);
    if (entry.id.digits.empty()) {
        entry.id = newEntryId();
    }
    Query query{state.file, Texts<E>::get().insert.c_str()};
    fill(query, entry);
    query.run();
    return entry.id;
}

template <class E>
typename EntryStore<E>::Id EntryStore<E>::amend(Logbook::State& state, const E& was, const E& given) {
    E entry = given;
    entry.id = was.id;
    entry.provenance = was.provenance;
    Query query{state.file, Texts<E>::get().update.c_str()};
    fill(query, entry);
    query.add(was.id.digits).run();
    return entry.id;
}

template <class E>
void EntryStore<E>::withdraw(Logbook::State& state, const Id& id) {
    Query{state.file, Texts<E>::get().remove.c_str()}.with(id.digits).run();
}

template struct EntryStore<Addition>;
template struct EntryStore<Aeration>;
template struct EntryStore<Observation>;
template struct EntryStore<Harvest>;
template struct EntryStore<ThermometerCheck>;

template <class E>
std::vector<E> entriesOf(DatabaseFile& file, std::int64_t owner) {
    std::vector<E> entries;
    Query query{file, Texts<E>::get().all.c_str()};
    query.with(owner);
    while (query.next()) {
        entries.push_back(entryFrom<E>(query));
    }
    return entries;
}
template std::vector<Addition> entriesOf(DatabaseFile& file, std::int64_t owner);
template std::vector<Aeration> entriesOf(DatabaseFile& file, std::int64_t owner);
template std::vector<Observation> entriesOf(DatabaseFile& file, std::int64_t owner);
template std::vector<Harvest> entriesOf(DatabaseFile& file, std::int64_t owner);
template std::vector<ThermometerCheck> entriesOf(DatabaseFile& file, std::int64_t owner);

std::vector<ThermometerCheck> Logbook::checks(ProbeId probe) const {
    return entriesOf<ThermometerCheck>(state_->file, static_cast<std::int64_t>(probe));
}

}  // namespace midden
