// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "core/exchange/plan/entry_files.h"
#include "core/exchange/plan/row_reader.h"

namespace midden {

namespace {

constexpr NumberRange volume{0.000'001, 1'000'000, "a volume in litres above 0, at most a million"};
constexpr NumberRange thickness{0, 10'000, "a thickness in millimetres from 0 to 10000"};
/// From below any insulation to above any metal a bin is made of.
constexpr NumberRange conductivity{0.000'1, 500, "a conductivity in W/(m K) from 0.0001 to 500"};

constexpr NumberRange binHeight{10, 1'000, "a height in cm from 10 to 1000"};
constexpr NumberRange height{0, 1'000, "a height in cm from 0 to 1000"};
constexpr NumberRange openArea{0, 1'000'000, "an area in square centimetres from 0 to a million"};
constexpr NumberRange airChanges{0, 10'000, "a number of air changes an hour from 0 to 10000"};

namespace bin {
enum Column : std::size_t {
    name,
    volumeL,
    insulation,
    conductivityWmk,
    retired,
    note,
    heightCm,
    hatchTopCm,
    ventCm2,
    ventRiseCm,
    airChangesH
};
constexpr std::array<ColumnSpec, 11> specs{{{"bin", true},
                                            {"volume_l"},
                                            {"insulation_mm"},
                                            {"conductivity_w_mk"},
                                            {"retired"},
                                            {"note"},
                                            {"height_cm"},
                                            {"hatch_top_cm"},
                                            {"vent_cm2"},
                                            {"vent_rise_cm"},
                                            {"air_changes_h"}}};
}  // namespace bin

namespace place {
enum Column : std::size_t { bin, position, spotCheck, heightCm };
constexpr std::array<ColumnSpec, 4> specs{{{"bin", true}, {"position", true}, {"spot_check", true}, {"height_cm"}}};
}  // namespace place

}  // namespace

FileResult<std::vector<Lined<Bin>>> readBins(const std::filesystem::path& file) {
    auto table = CsvTable::open(file, bin::specs);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    return readRows<Bin>(*table, bin::specs, [](RowReader& row, Bin& into) {
        std::optional<bool> isRetired;
        row.name(bin::name, into.name, "the bin's name");
        row.number(bin::volumeL, into.volumeLitres, volume);
        row.number(bin::insulation, into.insulationMillimetres, thickness);
        row.number(bin::conductivityWmk, into.conductivityWattsPerMetreKelvin, conductivity);
        row.take(bin::retired, isRetired, parseYesNo);
        into.retired = isRetired.value_or(false);
        into.note = row.text(bin::note);
        row.number(bin::heightCm, into.heightCentimetres, binHeight);
        row.number(bin::hatchTopCm, into.hatchTopCentimetres, height);
        row.number(bin::ventCm2, into.ventSquareCentimetres, openArea);
        row.number(bin::ventRiseCm, into.ventRiseCentimetres, height);
        row.number(bin::airChangesH, into.airChangesPerHour, airChanges);
    });
}

FileResult<std::vector<Lined<StagedPosition>>> readPositions(const std::filesystem::path& file) {
    auto table = CsvTable::open(file, place::specs);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    return readRows<StagedPosition>(*table, place::specs, [](RowReader& row, StagedPosition& into) {
        std::optional<bool> spotCheck;
        row.name(place::bin, into.bin, "the bin's name");
        row.name(place::position, into.position, "the position's name");
        row.take(place::spotCheck, spotCheck, parseYesNo);
        into.spotCheck = spotCheck.value_or(false);
        row.number(place::heightCm, into.heightCentimetres, height);
    });
}

}  // namespace midden
