// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/entry_files.h"

#include <array>

#include "core/exchange/plan/row_reader.h"

namespace midden {

namespace {

constexpr Range percentage{0, 100, "a percentage from 0 to 100"};
constexpr Range mass{0.000'001, 1'000'000, "a mass in kg above 0, at most a million"};
constexpr Range volume{0.000'001, 1'000'000, "a volume in litres above 0, at most a million"};
constexpr Range ratio{0.1, 10'000, "a carbon to nitrogen ratio from 0.1 to 10000"};

namespace addition {
enum Column : std::size_t { time, material, massKg, volumeL, moisture, carbon, nitrogen, carbonNitrogen, raw, note };
constexpr std::array<ColumnSpec, 10> specs{{{"time", true},
                                            {"material", true},
                                            {"mass_kg", true},
                                            {"volume_l"},
                                            {"moisture_percent"},
                                            {"carbon_percent"},
                                            {"nitrogen_percent"},
                                            {"carbon_nitrogen"},
                                            {"raw"},
                                            {"note"}}};

void read(RowReader& row, Addition& into) {
    std::optional<double> kilograms;
    row.number(massKg, kilograms, mass);
    if (!kilograms) {
        row.refuse({"mass_kg: nothing is written there", std::string{mass.words}});
    }
    into.massKilograms = kilograms.value_or(0);
    row.name(material, into.material, "what was added");
    row.number(volumeL, into.volumeLitres, volume);
    row.number(moisture, into.moisturePercent, percentage);
    row.number(carbon, into.carbonPercent, percentage);
    row.number(nitrogen, into.nitrogenPercent, percentage);
    row.number(carbonNitrogen, into.carbonNitrogen, ratio);
    row.take(raw, into.raw, parseYesNo);
    into.note = row.text(note);
    into.provenance.source = Source::imported;
}
}  // namespace addition

namespace aeration {
enum Column : std::size_t { time, kind, note };
constexpr std::array<ColumnSpec, 3> specs{{{"time", true}, {"kind", true}, {"note"}}};
}  // namespace aeration

namespace observation {
enum Column : std::size_t { time, kind, subject, value, note };
constexpr std::array<ColumnSpec, 5> specs{{{"time", true}, {"kind", true}, {"subject"}, {"value"}, {"note"}}};
}  // namespace observation

namespace move {
enum Column : std::size_t { time, bin };
constexpr std::array<ColumnSpec, 2> specs{{{"time", true}, {"bin", true}}};
}  // namespace move

}  // namespace

FileResult<std::vector<Lined<Addition>>> readAdditions(const std::filesystem::path& file, const ReadingHabits& habits) {
    auto table = CsvTable::open(file, addition::specs, habits.room.scratchFolder);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    TimeColumn times{habits.zone, addition::time};
    std::optional<Instant> previous;
    return readRows<Addition>(*table, addition::specs, [&](RowReader& row, Addition& into) {
        row.time(times, previous, into.when);
        addition::read(row, into);
    });
}

FileResult<std::vector<Lined<Aeration>>> readAerations(const std::filesystem::path& file, const ReadingHabits& habits) {
    auto table = CsvTable::open(file, aeration::specs, habits.room.scratchFolder);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    TimeColumn times{habits.zone, aeration::time};
    std::optional<Instant> previous;
    return readRows<Aeration>(*table, aeration::specs, [&](RowReader& row, Aeration& into) {
        row.time(times, previous, into.when);
        row.take(aeration::kind, into.kind, parseAerationKind);
        into.note = row.text(aeration::note);
        into.provenance.source = Source::imported;
    });
}

FileResult<std::vector<Lined<Observation>>> readObservations(const std::filesystem::path& file,
                                                             const ReadingHabits& habits) {
    auto table = CsvTable::open(file, observation::specs, habits.room.scratchFolder);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    TimeColumn times{habits.zone, observation::time};
    std::optional<Instant> previous;
    return readRows<Observation>(*table, observation::specs, [&](RowReader& row, Observation& into) {
        row.time(times, previous, into.when);
        row.take(observation::kind, into.kind, parseObservationKind);
        into.subject = row.text(observation::subject);
        into.value = row.text(observation::value);
        into.note = row.text(observation::note);
        into.provenance.source = Source::imported;
    });
}

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
