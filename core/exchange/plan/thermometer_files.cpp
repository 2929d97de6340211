// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "core/exchange/plan/entry_files.h"
#include "core/exchange/plan/row_reader.h"
#include "core/exchange/times/unit_rule.h"
#include "core/thermal/calibration.h"

namespace midden {

namespace {

/// The stated accuracy of any thermometer worth using; ten degrees is already a guess.
constexpr NumberRange accuracyRange{0, 10, "an accuracy in °C from 0 to 10"};
/// From below the Dead Sea's shore to above the highest village; outside it a figure is a slip.
constexpr NumberRange altitudeRange{-500, 6'000, "an altitude in metres from -500 to 6000"};
constexpr NumberRange pressureRange{400, 1'100, "a station pressure in hPa from 400 to 1100"};

namespace probe {
enum Column : std::size_t { name, accuracy, note };
constexpr std::array<ColumnSpec, 3> specs{{{"probe", true}, {"accuracy", true}, {"note"}}};

/// Exact to the ten-thousandth; an accuracy is a typed decimal as a temperature is.
Result<std::optional<Kelvins>> parseAccuracy(std::string_view cell) {
    const auto inRange = parseOptional(cell, accuracyRange);
    if (!inRange || !*inRange) {
        return inRange ? Result<std::optional<Kelvins>>{std::nullopt} : tl::unexpected{inRange.error()};
    }
    return parseTemperature(cell, TemperatureUnit::celsius).map([](WrittenTemperature written) {
        return std::optional{Kelvins::ofTenThousandths(written.tenThousandths)};
    });
}
}  // namespace probe

namespace check {
enum Column : std::size_t { time, probe, kind, read, altitude, pressure, unit, appliesFrom, note };
constexpr std::array<ColumnSpec, 9> specs{{{"time", true},
                                           {"probe", true},
                                           {"kind", true},
                                           {"read", true, true},
                                           {"altitude_m"},
                                           {"pressure_hpa"},
                                           {"unit"},
                                           {"applies_from"},
                                           {"note"}}};

/// Where the water boiled: one of the two for boiling, neither says anything about melting ice.
void readPlace(RowReader& row, ThermometerCheck& into) {
    row.number(altitude, into.altitudeMetres, altitudeRange);
    row.number(pressure, into.pressureHectopascals, pressureRange);
    if (into.kind == CheckKind::ice) {
        into.altitudeMetres.reset();
        into.pressureHectopascals.reset();
    } else if (into.altitudeMetres.has_value() == into.pressureHectopascals.has_value()) {
        row.refuse(
            {into.altitudeMetres ? "altitude and pressure are both given" : "neither altitude nor pressure is given",
             "altitude_m or pressure_hpa for a boiling check, one of the two"});
    }
}
}  // namespace check

}  // namespace

FileResult<std::vector<Lined<Probe>>> readProbes(const std::filesystem::path& file) {
    auto table = CsvTable::open(file, probe::specs);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    return readRows<Probe>(*table, probe::specs, [&](RowReader& row, Probe& into) {
        row.name(probe::name, into.name, "the thermometer's name");
        row.take(probe::accuracy, into.accuracy, probe::parseAccuracy);
        into.note = row.text(probe::note);
    });
}

FileResult<std::vector<Lined<StagedCheck>>> readChecks(const std::filesystem::path& file, const ReadingHabits& habits) {
    auto table = CsvTable::open(file, check::specs, habits.room.scratchFolder);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    const auto rule = UnitRule::of(*table, check::read, habits.unit);
    if (!rule) {
        return tl::unexpected{rule.error()};
    }
    TimeColumn times{habits.zone, check::time};
    TimeColumn reaches{habits.zone, check::appliesFrom};
    std::optional<Instant> previous;
    std::optional<Instant> previousReach;
    return readRows<StagedCheck>(*table, check::specs, [&](RowReader& row, StagedCheck& into) {
        TemperatureUnit unit{};
        row.time(times, previous, into.check.when);
        row.name(check::probe, into.probe, "the thermometer's name");
        row.take(check::kind, into.check.kind, parseCheckKind);
        row.take(check::unit, unit, [&](std::string_view cell) { return rule->forRow(cell); });
        row.take(check::read, into.check.read, [&](std::string_view cell) { return UnitRule::read(cell, unit); });
        check::readPlace(row, into.check);
        row.take(check::read, into.check, [&](std::string_view) { return plausible(into.check); });
        if (!table->text(check::appliesFrom).empty()) {
            Moment from;
            row.time(reaches, previousReach, from);
            into.check.appliesFrom = from.at;
        }
        into.check.note = row.text(check::note);
        into.check.provenance.source = Source::imported;
    });
}

}  // namespace midden
