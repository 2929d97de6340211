// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/entry_files.h"

#include <array>

#include "core/exchange/plan/row_reader.h"
#include "core/records/dated_entries.h"
#include "core/records/level.h"

namespace midden {

namespace {

namespace move {
enum Column : std::size_t { time, bin };
constexpr std::array<ColumnSpec, 2> specs{{{"time", true}, {"bin", true}}};
}  // namespace move

/// The columns of a file of a kind: its time, its fields, its note.
template <class E>
constexpr auto specsOf() {
    return std::apply(
        [](const auto&... field) {
            return std::array{ColumnSpec{"time", true}, ColumnSpec{field.csv, field.isRequired}..., ColumnSpec{"note"}};
        },
        EntryDescription<E>::fields);
}

// What a cell becomes, by the type of its field.
template <class E>
void read(RowReader& row, std::size_t column, const EntryField<E, std::string>& field, E& into) {
    if (field.isRequired) {
        row.name(column, into.*field.member, field.expected);
    } else {
        into.*field.member = row.text(column);
    }
}
template <class E>
void read(RowReader& row, std::size_t column, const EntryField<E, std::optional<double>>& field, E& into) {
    row.number(column, into.*field.member, field.range);
}
template <class E>
void read(RowReader& row, std::size_t column, const EntryField<E, double>& field, E& into) {
    std::optional<double> number;
    row.number(column, number, field.range);
    if (!number) {
        row.refuse({std::string{field.csv} + ": nothing is written there", std::string{field.range.words}});
    }
    into.*field.member = number.value_or(0);
}
template <class E>
void read(RowReader& row, std::size_t column, const EntryField<E, std::optional<bool>>& field, E& into) {
    row.take(column, into.*field.member, parseYesNo);
}
template <class E>
void read(RowReader& row, std::size_t column, const EntryField<E, AerationKind>& field, E& into) {
    row.take(column, into.*field.member, parseAerationKind);
}
template <class E>
void read(RowReader& row, std::size_t column, const EntryField<E, ObservationKind>& field, E& into) {
    row.take(column, into.*field.member, parseObservationKind);
}

/// What an entry says as a whole.
void complete(RowReader& row, Observation& into) {
    if (into.kind != ObservationKind::level) {
        return;
    }
    const auto level = parseOptional(into.value, levelRange);
    if (!level || !*level) {
        const auto wrong = level ? std::string{"a level needs its number"} : level.error().wrong;
        row.refuse({"value: " + wrong, std::string{levelRange.words}});
        return;
    }
    into.value = levelText(**level);
}
void complete(RowReader& /*row*/, const auto& /*into*/) {}

}  // namespace

template <class E>
FileResult<std::vector<Lined<E>>> readEntries(const std::filesystem::path& file, const ReadingHabits& habits) {
    static constexpr auto specs = specsOf<E>();
    auto table = CsvTable::open(file, specs, habits.room.scratchFolder);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    TimeColumn times{habits.zone, 0};
    std::optional<Instant> previous;
    return readRows<E>(*table, specs, [&](RowReader& row, E& into) {
        row.time(times, previous, into.when);
        std::size_t column = 0;
        eachField<E>([&](const auto& field) { read(row, ++column, field, into); });
        into.note = row.text(column + 1);
        complete(row, into);
        into.provenance.source = Source::imported;
    });
}
template FileResult<std::vector<Lined<Addition>>> readEntries(const std::filesystem::path&, const ReadingHabits&);
template FileResult<std::vector<Lined<Aeration>>> readEntries(const std::filesystem::path&, const ReadingHabits&);
template FileResult<std::vector<Lined<Observation>>> readEntries(const std::filesystem::path&, const ReadingHabits&);
template FileResult<std::vector<Lined<Harvest>>> readEntries(const std::filesystem::path&, const ReadingHabits&);

FileResult<std::vector<Lined<StagedMove>>> readMoves(const std::filesystem::path& file, const ReadingHabits& habits) {
    auto table = CsvTable::open(file, move::specs, habits.room.scratchFolder);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    TimeColumn times{habits.zone, move::time};
    std::optional<Instant> previous;
    return readRows<StagedMove>(*table, move::specs, [&](RowReader& row, StagedMove& into) {
        row.time(times, previous, into.since);
        row.name(move::bin, into.bin, "the bin the batch was moved to");
    });
}

}  // namespace midden
